package framing

import (
	"math"
	"slices"
	"time"

	"duskhand/plan"
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

// ChooseAngle returns which readings of the derotator give a wanted camera angle (of date) at the beginning
// of span, what run remains from each before the end of span, and what that costs against the longest. alike
// is the turn that is as good as none: 360° for the angle itself, Sensor.Alike for one that covers the same
// sky.
func ChooseAngle(c *plan.Course, wanted, alike sky.Angle, span plan.Span) AngleChoice {
	d := c.Kit.Derotator
	choice := AngleChoice{Wanted: wanted.Wrapped(), Longest: standingAt(c, c.PlannedRun(span.From, span.To).Start, span)}
	for _, reading := range c.ReadingsGiving(wanted, alike, span.From) {
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

func standingAt(c *plan.Course, reading sky.Angle, span plan.Span) Standing {
	s := Standing{Reading: reading, CameraAngle: c.CameraAngle(reading, span.From)}
	_, s.Within = c.Kit.Derotator.Reach(reading)
	s.Run = plan.Stretch{Start: reading, Until: span.From}
	if s.Within {
		s.Run = c.From(plan.Anchor{At: span.From, Angle: reading}, span.To)
	}
	return s
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
