package facts

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/supplies"
)

// Supplies is whether the night lasts: dry glass, disk and battery.
type Supplies struct {
	Dew     supplies.Dew
	DewOK   bool
	DewAt   time.Time // of the reading that is the older
	DewNone string    // why nothing is known of it, and what would be right

	Data   supplies.Data
	Room   *supplies.Room // nil where nobody knows what is free
	NoRoom string         // why, as a sentence

	Power supplies.Power
	Lasts bool      // there is a night for the battery to last through
	Left  []float64 // share of the usable part at even steps from sunset to sunrise; none if not known

	Zone *time.Location
}

// Disk is where the subs go.
type Disk struct {
	FreeBytes int64
	OK        bool   // FreeBytes is known
	None      string // or why not, "" if no folder is given
}

// SuppliesAt derives them for what the night is still to give.
func (r Run) SuppliesAt(disk Disk) Supplies {
	s := SuppliesFor(r.Kit, r.Night, r.SubsPlanned(), disk)
	s.Dew, s.DewAt, s.DewNone = DewOf(r.Log.Temperatures, r.Log.Humidities)
	s.DewOK = s.DewNone == ""
	return s
}

// SuppliesFor returns disk and battery for so many subs in a night; of the air nothing is known.
func SuppliesFor(k kit.Kit, night *plan.Night, subs int, disk Disk) Supplies {
	s := Supplies{Data: supplies.DataOf(k.Camera, subs), NoRoom: disk.None, Zone: k.Site.Zone}
	s.DewNone = "Dew: give the air's temperature and humidity."
	if s.NoRoom == "" {
		s.NoRoom = "Give watch.folders in the kit to know whether the disk holds them."
	}
	if disk.OK {
		room := s.Data.Against(disk.FreeBytes)
		s.Room = &room
	}
	span, ok := supplies.NightOf(night)
	if !ok {
		return s
	}
	s.Lasts, s.Power = true, supplies.PowerThrough(k.Power, span)
	if len(s.Power.Lacks) > 0 {
		return s
	}
	const steps = 48
	for i := range steps + 1 {
		at := span.From.Add(span.Length() * time.Duration(i) / steps)
		s.Left = append(s.Left, s.Power.LeftShareAt(at))
	}
	return s
}

// readTogether is how far apart in time a thermometer's and a hygrometer's readings may be to belong to the
// same air: it changes by a degree or two in an hour (common practice).
const readTogether = 30 * time.Minute

// DewOf returns what the night's readings say of the glass: the moisture by the last humidity and the
// temperature read nearest to it, the margin by the last temperature, for the moisture stays while the air
// cools. none says what must be read when that is not known.
func DewOf(temperatures []checklist.Temperature, humidities []checklist.Humidity) (dew supplies.Dew, at time.Time, none string) {
	if len(humidities) == 0 || len(temperatures) == 0 {
		return dew, at, "Dew: read thermometer and hygrometer: keys c and h."
	}
	moist, now := humidities[len(humidities)-1], temperatures[len(temperatures)-1]
	with := now
	for _, t := range temperatures {
		if t.At.Sub(moist.At).Abs() <= with.At.Sub(moist.At).Abs() {
			with = t
		}
	}
	if with.At.Sub(moist.At).Abs() > readTogether {
		return dew, at, "Dew: temperature and humidity were read too far apart; read both: keys c and h."
	}
	air := supplies.Air{TemperatureC: with.C, HumidityPercent: moist.Percent}
	if err := air.Check(); err != nil {
		return dew, at, "Dew: " + err.Error() + "."
	}
	if now.At.After(with.At) {
		point := air.DewPointC()
		air = supplies.Air{TemperatureC: now.C, HumidityPercent: min(100, supplies.HumidityPercent(now.C, point))}
	}
	dew, err := supplies.DewIn(air)
	if err != nil {
		return dew, at, "Dew: " + err.Error() + "."
	}
	return dew, earlier(moist.At, now.At), ""
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}
