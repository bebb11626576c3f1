package arrival

import (
	"math"
	"path/filepath"
	"strings"
	"time"

	"duskhand/checklist/subs"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// mostSensorOff is by how much the sensor may be off its set point before darks taken there fit no more; a
// choice of ours, as is the next.
const mostSensorOff = 1.0 // °C

// nearObject is how far another object may be and still be one field with the target, their sizes aside.
const nearObject = 1 * sky.Degree

// wrongExposure allows a hundredth, and a tenth of a second, for shutters and rounding.
func (l Ledger) wrongExposure(e Entry) (subject string, odd Odd) {
	if !e.Counts() || e.Filter < 0 || e.Header.Exposure == nil {
		return "", Odd{}
	}
	filter := l.wanted(e)
	if (e.Exposure - filter.Exposure).Abs() <= max(100*time.Millisecond, filter.Exposure/100) {
		return "", Odd{}
	}
	return filter.Name + "|" + e.Exposure.String(), Odd{Filter: filter.Name, Exposure: e.Exposure, Wanted: filter.Exposure}
}

func (l Ledger) unknownFilter(e Entry) (subject string, odd Odd) {
	if !e.Counts() || e.Filter >= 0 || e.Unread != "" {
		return "", Odd{}
	}
	if e.Header.Filter == "" {
		return "none", Odd{}
	}
	var names []string
	for _, f := range l.situation.Kit.Subs.Filters {
		names = append(names, f.Name)
	}
	return usual(e.Header.Filter), Odd{Filter: e.Header.Filter, Filters: names}
}

// otherObject finds headers that name another target that is known than the run's. A name that nothing is known
// by says nothing, nor does a neighbour in the same field.
func (l Ledger) otherObject() fault {
	type answer struct {
		target kit.Target
		known  bool
	}
	answers := map[string]answer{}
	find := func(name string) answer {
		a, asked := answers[name]
		if !asked {
			target, err := TargetOf(l.situation.Kit, name)
			a = answer{target, err == nil}
			answers[name] = a
		}
		return a
	}
	return func(e Entry) (subject string, odd Odd) {
		if !e.Counts() || e.Run < 0 || e.Header.Object == "" {
			return "", Odd{}
		}
		named, meant := find(e.Header.Object), find(e.Target)
		if chosen := l.situation.Night.Runs[e.Run].Target; chosen != nil && !meant.known {
			meant = answer{kit.Target{Name: chosen.Name, Star: chosen.Star}, true}
		}
		if !named.known || !meant.known || sameField(named.target, meant.target) {
			return "", Odd{}
		}
		return e.Header.Object + "|" + e.Target, Odd{Named: e.Header.Object, Target: e.Target}
	}
}

// sameField tells that two targets may be meant by one frame: they overlap, or all but.
func sameField(a, b kit.Target) bool {
	apart := a.Star.Place.Direction().Separation(b.Star.Place.Direction())
	sizes := sky.Angle(a.Object.MajorArcmin.Value+b.Object.MajorArcmin.Value) / 2 * sky.Arcminute
	return apart <= nearObject+sizes
}

// sensorOff leaves flats out: their darks are short.
func (l Ledger) sensorOff(e Entry) (subject string, odd Odd) {
	point := l.situation.Kit.Camera.SetPointC
	if point == nil || e.Header.SensorC == nil || e.Header.Kind == subs.Flat || math.Abs(*e.Header.SensorC-*point) <= mostSensorOff {
		return "", Odd{}
	}
	return "off", Odd{SensorC: *e.Header.SensorC, SetPointC: *point}
}

func (l Ledger) notALight(e Entry) (subject string, odd Odd) {
	if e.Header.Kind == subs.Light || e.Header.Kind == subs.UnknownKind || e.Copy != "" {
		return "", Odd{}
	}
	if _, going := l.situation.stretchAt(e.Start); !going {
		return "", Odd{}
	}
	return string(e.Header.Kind), Odd{Header: string(e.Header.Kind)}
}

func copied(e Entry) (subject string, odd Odd) {
	if e.Copy == "" {
		return "", Odd{}
	}
	return e.Path, Odd{Copy: e.Copy}
}

func unread(e Entry) (subject string, odd Odd) {
	if e.Unread == "" {
		return "", Odd{}
	}
	return strings.ReplaceAll(e.Unread, base(e.Path), ""), Odd{Error: e.Unread}
}

func base(path string) string { return filepath.Base(path) }
