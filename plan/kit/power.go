package kit

import (
	"math"
	"time"
)

// Power is the battery of the night and what hangs on it. BatteryWh is its capacity as the label has it and
// UsableShare the share of it that may be taken out; both 0 when the file is silent.
type Power struct {
	BatteryWh, UsableShare float64
	Loads                  []Load // in the order of the file
}

// Load is something that draws Watts, on average while it is on. Lasts is for how long of the night that is,
// 0 for all of it.
type Load struct {
	Name  string
	Watts float64
	Lasts time.Duration
}

func powerFields() []field {
	return []field{
		{key: "power.battery_wh", kind: number, unit: "watt-hours", min: 1, max: 100000, need: optional, example: "600",
			help: "Capacity of the battery: volts times ampere-hours of its label.",
			set:  func(d *draft, v value) { d.kit.Power.BatteryWh = v.number }},
		{key: "power.usable_share", kind: number, min: 0.01, max: 1, need: optional, example: "0.8",
			help: "Share of it that may be taken out: about 0.5 for lead, 0.8 or more for lithium, less in frost; see its maker.",
			set:  func(d *draft, v value) { d.kit.Power.UsableShare = v.number }},
		{key: "power.load.name", kind: text, min: 1, max: 40, need: required, example: "dew heaters",
			help: "What draws the power.",
			set:  func(d *draft, v value) { d.load().Name = v.text }},
		{key: "power.load.watts", kind: number, unit: "W", min: 0, max: 5000, need: required, example: "14",
			help: "What it draws on average while it is on.",
			set:  func(d *draft, v value) { d.load().Watts = v.number }},
		{key: "power.load.hours", kind: number, unit: "hours", min: 0.01, max: 24, need: optional, example: "5",
			help: "For how long of the night it is on, counted from sunset; all night if left out.",
			set: func(d *draft, v value) {
				d.load().Lasts = time.Duration(math.Round(v.number * float64(time.Hour)))
			}},
	}
}
