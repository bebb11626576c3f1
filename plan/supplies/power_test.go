package supplies_test

import (
	"math"
	"testing"
	"time"
	_ "time/tzdata" // the zone of the example, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/supplies"
	"duskhand/sky"
)

var evening = time.Date(2026, 12, 5, 10, 0, 0, 0, time.UTC)

func tenHours() plan.Span { return plan.Span{From: evening, To: evening.Add(10 * time.Hour)} }

// battery has 100 usable watt-hours.
func battery(loads ...kit.Load) kit.Power {
	return kit.Power{BatteryWh: 200, UsableShare: 0.5, Loads: loads}
}

func TestPowerByHand(t *testing.T) {
	mount := kit.Load{Name: "mount", Watts: 6}
	heaters := kit.Load{Name: "heaters", Watts: 20, Lasts: 2 * time.Hour}
	cases := []struct {
		name       string
		loads      []kit.Load
		needed     float64
		left       float64
		emptyAfter time.Duration // 0: it lasts
	}{
		{"one load all night", []kit.Load{mount}, 60, 0.4, 0},
		{"heaters for two hours", []kit.Load{mount, heaters}, 100, 0, 0},                                                          // 60 + 40: the last drop at the end
		{"heaters all night", []kit.Load{mount, {Name: "heaters", Watts: 20}}, 260, 0, 100 * time.Hour / 26},                      // 100 Wh at 26 W
		{"empty before the heaters go off", []kit.Load{{Name: "a", Watts: 100, Lasts: 3 * time.Hour}}, 300, 0, time.Hour},         // 100 Wh at 100 W
		{"empty after they have", []kit.Load{{Name: "m", Watts: 10}, heaters}, 140, 0, 6 * time.Hour},                             // 60 Wh in two hours, 40 more at 10 W in four
		{"longer than the night", []kit.Load{{Name: "a", Watts: 5, Lasts: 24 * time.Hour}}, 50, 0.5, 0},                           // ten hours of it
		{"a gap without any load", []kit.Load{{Name: "a", Watts: 40, Lasts: 2 * time.Hour}}, 80, 0.2, 0},                          // and nothing thereafter
		{"two that stop together", []kit.Load{heaters, {Name: "b", Watts: 40, Lasts: 2 * time.Hour}}, 120, 0, time.Hour * 10 / 6}, // 100 Wh at 60 W
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := supplies.PowerThrough(battery(c.loads...), tenHours())
			assert.InDelta(t, c.needed, p.NeededWh, 1e-9)
			assert.InDelta(t, 100, p.UsableWh, 1e-9)
			assert.InDelta(t, c.left, p.LeftShare, 1e-9)
			require.Equal(t, c.emptyAfter > 0, p.Empty.OK)
			if p.Empty.OK {
				assert.WithinDuration(t, evening.Add(c.emptyAfter), p.Empty.At, time.Microsecond)
			}
		})
	}
}

func TestPowerNamesWhatTheKitDoesNotSay(t *testing.T) {
	p := supplies.PowerThrough(kit.Power{}, tenHours())
	assert.Equal(t, []string{"power.battery_wh", "power.usable_share", "power.load"}, p.Lacks)
	p = supplies.PowerThrough(kit.Power{BatteryWh: 200, Loads: []kit.Load{{Name: "mount", Watts: 9}}}, tenHours())
	assert.Equal(t, []string{"power.usable_share"}, p.Lacks)
	assert.InDelta(t, 90, p.NeededWh, 1e-9)
	assert.Zero(t, p.LeftShareAt(evening))
	assert.False(t, p.Empty.OK)
}

func TestTheExampleLastsTheNight(t *testing.T) {
	k := kit.Example()
	n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	span, ok := supplies.NightOf(n)
	require.True(t, ok)
	p := supplies.PowerThrough(k.Power, span)
	assert.InDelta(t, 37*span.Length().Hours()+70, p.NeededWh, 1e-9) // 9 + 16 + 12 W all night, 14 W for 5 h
	assert.False(t, p.Empty.OK)
	assert.InDelta(t, 0.1, p.LeftShare, 0.05)
}

func TestTheNightAtHighLatitudes(t *testing.T) {
	k := kit.Example()
	k.Site.Place.Latitude = 75 * sky.Degree
	summer := plan.NewNight(k, plan.Date{Year: 2026, Month: time.June, Day: 21})
	_, ok := supplies.NightOf(summer)
	assert.False(t, ok, "the Sun does not set")
	winter := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 21})
	span, ok := supplies.NightOf(winter)
	assert.True(t, ok, "the Sun does not rise")
	assert.Equal(t, 24*time.Hour, span.Length())
}

func TestTheBatteryOnlyFallsAndIsEmptyWhenItSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var loads []kit.Load
		for range rapid.IntRange(1, 5).Draw(t, "loads") {
			loads = append(loads, kit.Load{Name: "x", Watts: rapid.Float64Range(0, 60).Draw(t, "watts"),
				Lasts: time.Duration(rapid.IntRange(0, 800).Draw(t, "minutes")) * time.Minute})
		}
		p := supplies.PowerThrough(battery(loads...), tenHours())
		before := 1.0
		for minute := 0; minute <= 600; minute += 7 {
			left := p.LeftShareAt(evening.Add(time.Duration(minute) * time.Minute))
			if left > before+1e-12 || left < 0 {
				t.Fatalf("after %d min %v is left, before it was %v", minute, left, before)
			}
			before = left
		}
		if p.Empty.OK != (p.NeededWh > p.UsableWh) {
			t.Fatalf("needs %v of %v, empty %v", p.NeededWh, p.UsableWh, p.Empty)
		}
		if p.Empty.OK {
			if left := p.LeftShareAt(p.Empty.At); left > 1e-9 {
				t.Fatalf("%v is left when it is empty", left)
			}
			if left := p.LeftShareAt(p.Empty.At.Add(-time.Minute)); left <= 0 {
				t.Fatalf("nothing is left a minute before it is empty")
			}
		}
		if math.Abs(p.LeftShare-p.LeftShareAt(p.Span.To)) > 1e-12 {
			t.Fatalf("%v is left at the end, or %v", p.LeftShare, p.LeftShareAt(p.Span.To))
		}
	})
}
