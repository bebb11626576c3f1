// Package scan follows many targets through one night at little cost: windows, runs of the derotator and
// what they give, from samples two minutes apart with straight lines between them.
//
// It answers what plan.Course answers exactly, for hundreds of targets or hundreds of starts in the time
// that a Course takes for one. Errors, against plan.Course in this folder's tests: edges of windows 10 s,
// but windows and gaps shorter than a sample are missed; a run's end some seconds where the axis is known,
// and a minute or two where its uncertainty is large (more where a stage that stops only at its ends starts
// while the field hardly turns); the camera angle that a target wants is not looked at.
// Everything is a pure function of kit, night and axis.
package scan

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Step is the longest distance of two samples.
const Step = 2 * time.Minute

// Sky is the dark part of one night, sampled, and the mount under it.
type Sky struct {
	Kit  kit.Kit
	Dark []plan.Span

	frame     *sky.Frame
	pole      sky.Direction
	air       sky.Air
	skyline   sky.Angle // above which no horizon profile stands
	nominal   sky.Direction
	pairs     [2][2]sky.Direction // opposite axes on the rim of the uncertainty, the pairs square to each other
	uncertain bool
	radius    sky.Angle // of the uncertainty, at most
	blocks    []block
	times     []time.Time
}

// block is the samples of one dark span, first and last on its edges.
type block struct {
	plan.Span
	first, last int
	step        time.Duration
}

// NewSky returns the sampled sky of a night for an axis, within the ellipse of its spread if a fit gave one,
// else within the circle of its uncertainty.
func NewSky(n *plan.Night, axis kit.Axis, spread *plan.Spread) *Sky {
	return Of(n.Kit, n.Frame, n.Dark, axis, spread)
}

// Of is NewSky for stretches of time that the caller chooses, of at most a day around the frame's middle.
func Of(k kit.Kit, frame *sky.Frame, dark []plan.Span, axis kit.Axis, spread *plan.Spread) *Sky {
	s := &Sky{Kit: k, Dark: dark, frame: frame, pole: frame.Pole()}
	s.air = sky.Air{PressureHPa: k.Site.PressureHPa, TemperatureC: k.Site.TemperatureC}
	for _, p := range k.Horizon.Points() {
		s.skyline = max(s.skyline, p.Altitude)
	}
	s.nominal = sky.MountAxis(axis.Tilt, axis.Toward)
	if spread == nil {
		spread = circle(axis.Uncertainty)
	}
	if spread.East > 0 || spread.North > 0 {
		s.uncertain, s.radius = true, spread.Radius()
		rim := spread.Rim(axis)
		quarter := len(rim) / 4
		for i := range s.pairs {
			s.pairs[i] = [2]sky.Direction{axisOf(rim[i*quarter]), axisOf(rim[(i+2)*quarter])}
		}
	}
	for _, span := range dark {
		s.sample(span)
	}
	return s
}

// circle returns the spread whose rim has a radius.
func circle(radius sky.Angle) *plan.Spread {
	unit := plan.Spread{East: 1, North: 1}
	one := radius / unit.Radius()
	return &plan.Spread{East: one, North: one}
}

func axisOf(a kit.Axis) sky.Direction { return sky.MountAxis(a.Tilt, a.Toward) }

func (s *Sky) sample(span plan.Span) {
	n := max(1, int((span.Length()+Step-1)/Step))
	b := block{Span: span, first: len(s.times), step: span.Length() / time.Duration(n)}
	for i := range n {
		s.times = append(s.times, span.From.Add(time.Duration(i)*b.step))
	}
	s.times = append(s.times, span.To)
	b.last = len(s.times) - 1
	s.blocks = append(s.blocks, b)
}

// Times returns the sampled instants, in order. Do not change them.
func (s *Sky) Times() []time.Time { return s.times }

// Frame returns the frame of the night.
func (s *Sky) Frame() *sky.Frame { return s.frame }

// Darkness returns how long it is dark.
func (s *Sky) Darkness() (total time.Duration) {
	for _, span := range s.Dark {
		total += span.Length()
	}
	return total
}
