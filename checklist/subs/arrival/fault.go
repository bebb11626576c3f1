package arrival

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"time"

	"duskhand/checklist/subs"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// mostSensorOff is by how much the sensor may be off its set point before darks taken there fit no more; a
// choice of ours, as is the next.
const mostSensorOff = 1.0 // °C

// nearObject is how far another object may be and still be one field with the target, their sizes aside.
const nearObject = 1 * sky.Degree

// wrongExposure allows a hundredth, and a tenth of a second, for shutters and rounding.
func (l Ledger) wrongExposure(e Entry) (subject, text string) {
	if !e.Counts() || e.Filter < 0 || e.Header.Exposure == nil {
		return "", ""
	}
	filter := l.wanted(e)
	if (e.Exposure - filter.Exposure).Abs() <= max(100*time.Millisecond, filter.Exposure/100) {
		return "", ""
	}
	return filter.Name + "|" + e.Exposure.String(), fmt.Sprintf("%s was exposed for %s; the kit has %s for %s",
		base(e.Path), words.Exposure(e.Exposure), words.Exposure(filter.Exposure), filter.Name)
}

func (l Ledger) unknownFilter(e Entry) (subject, text string) {
	if !e.Counts() || e.Filter >= 0 || e.Unread != "" {
		return "", ""
	}
	if e.Header.Filter == "" {
		return "none", fmt.Sprintf("%s does not say its filter; name it when subs are started, or have the capture program write FILTER", base(e.Path))
	}
	var names []string
	for _, f := range l.situation.Kit.Subs.Filters {
		names = append(names, f.Name)
	}
	return usual(e.Header.Filter), fmt.Sprintf("%s was taken through %q; the kit has %s; if it is one of these, add also_written = %q to its [[subs.filter]]",
		base(e.Path), e.Header.Filter, strings.Join(names, ", "), e.Header.Filter)
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
	return func(e Entry) (subject, text string) {
		if !e.Counts() || e.Run < 0 || e.Header.Object == "" {
			return "", ""
		}
		named, meant := find(e.Header.Object), find(e.Target)
		if chosen := l.situation.Night.Runs[e.Run].Target; chosen != nil && !meant.known {
			meant = answer{kit.Target{Name: chosen.Name, Star: chosen.Star}, true}
		}
		if !named.known || !meant.known || sameField(named.target, meant.target) {
			return "", ""
		}
		return e.Header.Object + "|" + e.Target, fmt.Sprintf("%s says that it is of %s, but the target is %s; see where the mount points, or correct the name",
			base(e.Path), e.Header.Object, e.Target)
	}
}

// sameField tells that two targets may be meant by one frame: they overlap, or all but.
func sameField(a, b kit.Target) bool {
	apart := a.Star.Place.Direction().Separation(b.Star.Place.Direction())
	sizes := sky.Angle(a.Object.MajorArcmin.Value+b.Object.MajorArcmin.Value) / 2 * sky.Arcminute
	return apart <= nearObject+sizes
}

// sensorOff leaves flats out: their darks are short.
func (l Ledger) sensorOff(e Entry) (subject, text string) {
	point := l.situation.Kit.Camera.SetPointC
	if point == nil || e.Header.SensorC == nil || e.Header.Kind == subs.Flat || math.Abs(*e.Header.SensorC-*point) <= mostSensorOff {
		return "", ""
	}
	return "off", fmt.Sprintf("the sensor was at %s in %s, its set point is %s; see whether the cooler is on and keeps up",
		words.Celsius(*e.Header.SensorC, 1), base(e.Path), words.Celsius(*point, 1))
}

func (l Ledger) notALight(e Entry) (subject, text string) {
	if e.Header.Kind == subs.Light || e.Header.Kind == subs.UnknownKind || e.Copy != "" {
		return "", ""
	}
	if _, going := l.situation.stretchAt(e.Start); !going {
		return "", ""
	}
	return string(e.Header.Kind), fmt.Sprintf("%s is a %s by its header, and is not counted; lights are being taken", base(e.Path), e.Header.Kind)
}

func copied(e Entry) (subject, text string) {
	if e.Copy == "" {
		return "", ""
	}
	return e.Path, fmt.Sprintf("%s has the same DATE-OBS as %s, so the two count once; if they are two subs, see to the capture computer's clock",
		base(e.Path), base(e.Copy))
}

func unread(e Entry) (subject, text string) {
	if e.Unread == "" {
		return "", ""
	}
	return strings.ReplaceAll(e.Unread, base(e.Path), ""), e.Unread
}

func base(path string) string { return filepath.Base(path) }
