package framing

import (
	"cmp"
	"math"
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Standing is the derotator at one reading at the beginning of a run.
type Standing struct {
	Reading     sky.Angle
	CameraAngle sky.Angle    // that it gives, of date, [0°, 360°)
	Within      bool         // the stage can be sent there
	Run         plan.Stretch // that it leaves, by the early bound; nothing unless Within
}

// AngleChoice is what a wanted camera angle costs at an instant.
type AngleChoice struct {
	Wanted sky.Angle // of date
	// Giving holds the readings that give it or one that covers the same sky: those within the travel, the
	// longest run first; if there are none, the nearest on either side of the travel.
	Giving  []Standing
	Nearest Standing  // the first of Giving if it is within, else the end of the travel that comes nearest
	Off     sky.Angle // the camera angle of Nearest less the wanted, of the turns that cover the same sky the least
	Longest Standing  // the longest run that any reading gives
}

// Possible tells whether the wanted angle can be had.
func (a AngleChoice) Possible() bool { return len(a.Giving) > 0 && a.Giving[0].Within }

// Cost returns by how much the run at the nearest angle is shorter than the longest.
func (a AngleChoice) Cost() time.Duration { return a.Longest.Run.Until.Sub(a.Nearest.Run.Until) }

// atEnd is how near a stage that stops only at its ends must be asked to one of them.
const atEnd = 0.1 * sky.Degree

// ChooseAngle returns which readings of the derotator give a wanted camera angle (of date) at the beginning
// of span, what run remains from each before the end of span, and what that costs against the longest. alike
// is the turn that is as good as none: 360° for the angle itself, Sensor.Alike for one that covers the same
// sky.
//
// Which reading: θ = χ + zero − s·m, so m = s·(χ + zero − θ), and m ± alike as well.
func ChooseAngle(c *plan.Course, wanted, alike sky.Angle, span plan.Span) AngleChoice {
	d := c.Kit.Derotator
	choice := AngleChoice{Wanted: wanted.Wrapped(), Longest: standingAt(c, c.PlannedRun(span.From, span.To).Start, span)}
	for _, reading := range readingsFor(c, wanted, alike, span.From) {
		choice.Giving = append(choice.Giving, standingAt(c, reading, span))
	}
	slices.SortStableFunc(choice.Giving, func(a, b Standing) int {
		if a.Within != b.Within {
			return boolOrder(a.Within, b.Within)
		}
		return b.Run.Until.Compare(a.Run.Until)
	})
	if choice.Possible() {
		choice.Nearest = choice.Giving[0]
	} else {
		low, high := standingAt(c, d.Min, span), standingAt(c, d.Max, span)
		choice.Nearest = low
		if Off(high.CameraAngle, wanted, alike).Abs() < Off(low.CameraAngle, wanted, alike).Abs() {
			choice.Nearest = high
		}
	}
	choice.Off = Off(choice.Nearest.CameraAngle, wanted, alike)
	if choice.Nearest.Run.Until.After(choice.Longest.Run.Until) { // that is planned to the tenth of a degree
		choice.Longest = choice.Nearest
	}
	return choice
}

// boolOrder puts true first.
func boolOrder(a, b bool) int {
	if a == b {
		return 0
	}
	if a {
		return -1
	}
	return 1
}

// Off returns by how much a camera angle is past a wanted one, of all turns by alike the smallest:
// (−alike/2, alike/2].
func Off(angle, wanted, alike sky.Angle) sky.Angle {
	turns := math.Ceil(float64((angle-wanted)/alike) - 0.5)
	return angle - wanted - sky.Angle(turns)*alike
}

// readingsFor returns the readings within the travel that give a camera angle or one alike, ascending; if
// there are none, the nearest below and the nearest above.
func readingsFor(c *plan.Course, wanted, alike sky.Angle, at time.Time) []sky.Angle {
	d := c.Kit.Derotator
	one := sky.Angle(d.Sense) * (c.FieldAngle(at) + c.Kit.Camera.AngleAtZero - wanted)
	first := one + alike*sky.Angle(math.Ceil(float64((d.Min-one)/alike)))
	if first > d.Max {
		return []sky.Angle{first - alike, first}
	}
	var within []sky.Angle
	for reading := first; reading <= d.Max; reading += alike {
		within = append(within, reading)
	}
	return within
}

func standingAt(c *plan.Course, reading sky.Angle, span plan.Span) Standing {
	s := Standing{Reading: reading, CameraAngle: c.CameraAngle(reading, span.From), Within: reachable(c.Kit.Derotator, reading)}
	s.Run = plan.Stretch{Start: reading, Until: span.From}
	if s.Within {
		s.Run = c.From(plan.Anchor{At: span.From, Angle: reading}, span.To)
	}
	return s
}

func reachable(d kit.Derotator, reading sky.Angle) bool {
	if !d.StopsAnywhere {
		return min((reading-d.Min).Abs(), (reading-d.Max).Abs()) <= atEnd
	}
	return reading >= d.Min && reading <= d.Max
}

// AngleTable returns what each reading of the derotator gives at the beginning of span, from one limit to
// the other in equal steps of at most step: the two ends alone for a stage that stops nowhere else.
func AngleTable(c *plan.Course, span plan.Span, step sky.Angle) []Standing {
	d := c.Kit.Derotator
	n := 1
	if d.StopsAnywhere && step > 0 {
		n = max(1, int(math.Ceil(float64(d.Travel()/step)-1e-9)))
	}
	table := make([]Standing, n+1)
	for i := range table {
		reading := d.Min + d.Travel()*sky.Angle(i)/sky.Angle(n)
		if i == n {
			reading = d.Max
		}
		table[i] = standingAt(c, reading, span)
	}
	return table
}

// Longest returns the standing of a table whose run lasts longest, the first of equals; ok is false for an
// empty table.
func Longest(table []Standing) (best Standing, ok bool) {
	if len(table) == 0 {
		return Standing{}, false
	}
	return slices.MaxFunc(table, func(a, b Standing) int {
		return cmp.Compare(a.Run.Until.UnixNano(), b.Run.Until.UnixNano())
	}), true
}
