package facts

import (
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// skyOfNight is what the pictures of the night need and what depends on the night alone.
type skyOfNight struct {
	span plan.Span   // what the pictures show: sunset to sunrise, or noon to noon without them
	sun  []sky.Angle // altitudes at even steps over span
	moon []Height
}

// Height is an altitude at an instant.
type Height struct {
	At       time.Time
	Altitude sky.Angle
}

// pictureSteps is how finely curves of the night are drawn: two dots a column on a screen 120 wide.
const pictureSteps = 240

func newSkyOfNight(n *plan.Night) *skyOfNight {
	s := &skyOfNight{span: n.Span}
	if n.Twilight.Sunset.OK && n.Twilight.Sunrise.OK && n.Twilight.Sunset.At.Before(n.Twilight.Sunrise.At) {
		s.span = plan.Span{From: n.Twilight.Sunset.At, To: n.Twilight.Sunrise.At}
	}
	for i := range pictureSteps + 1 {
		at := s.at(i)
		s.sun = append(s.sun, n.Frame.Sun(at).Altitude)
		if i%4 == 0 { // the Moon is slow in the sky and dear to compute
			s.moon = append(s.moon, Height{at, n.Frame.Moon(at).Altitude})
		}
	}
	return s
}

func (s *skyOfNight) at(i int) time.Time {
	return s.span.From.Add(s.span.Length() * time.Duration(i) / pictureSteps)
}

// Span returns the stretch that pictures of the night show.
func (t *Tonight) Span() plan.Span { return t.sky.span }

// Sun returns the Sun's altitudes at even steps over Span.
func (t *Tonight) Sun() []sky.Angle { return t.sky.sun }

// Moon returns the Moon's altitudes over Span.
func (t *Tonight) Moon() []Height { return t.sky.moon }

// Altitudes returns the target's altitudes over Span.
func (t *Tonight) Altitudes() []Height { return t.altitudesOf(t.Course) }

func (t *Tonight) altitudesOf(course *plan.Course) []Height {
	heights := make([]Height, 0, pictureSteps+1)
	for i := range pictureSteps + 1 {
		at := t.sky.at(i)
		heights = append(heights, Height{at, course.Place(at).Altitude})
	}
	return heights
}

// Turning is the derotator's mechanical angle at an instant; First marks the beginning of a run.
type Turning struct {
	At    time.Time
	Angle sky.Angle
	First bool
}

// Angles returns the mechanical angle through the runs of the target, so far and planned.
func (t *Tonight) Angles() []Turning {
	const step = 4 * time.Minute
	var turnings []Turning
	for _, row := range t.Rows() {
		if row.Target != t.Target.Name {
			continue
		}
		anchor := plan.Anchor{At: row.From, Angle: row.StartAngle}
		if row.Open && t.Anchor != nil {
			anchor = *t.Anchor
		}
		first := true
		for at := row.From; ; at = at.Add(step) {
			if at.After(row.To) {
				at = row.To
			}
			turnings = append(turnings, Turning{at, t.Held(t.Course.Angle(anchor, at)), first})
			if first = false; !at.Before(row.To) {
				break
			}
		}
	}
	return turnings
}
