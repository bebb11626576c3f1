package sky

import (
	"math"
	"time"
)

// Track is a target's way over the sky of a frame, sampled at a fixed step so that several axes can be
// tried on it at little cost.
type Track struct {
	frame      *Frame
	target     Fixed
	times      []time.Time
	directions []Direction
}

// Track samples the directions of target from one instant to another, both included.
func (f *Frame) Track(target Fixed, from, to time.Time, step time.Duration) *Track {
	n := max(1, int(math.Ceil(to.Sub(from).Seconds()/step.Seconds())))
	tr := &Track{frame: f, target: target, times: make([]time.Time, n+1), directions: make([]Direction, n+1)}
	for i := range tr.times {
		tr.times[i] = from.Add(time.Duration(i) * step)
		if i == n {
			tr.times[i] = to
		}
		tr.directions[i] = f.Direction(target, tr.times[i])
	}
	return tr
}

// Times returns the sampled instants. Do not change them.
func (tr *Track) Times() []time.Time { return tr.times }

// Sampled returns the sampled directions, east, north, up, airless. Do not change them.
func (tr *Track) Sampled() []Direction { return tr.directions }

// At returns the exact direction at t, also outside the sampled interval.
func (tr *Track) At(t time.Time) Direction { return tr.frame.Direction(tr.target, t) }

// From and To bound the sampled interval.
func (tr *Track) From() time.Time { return tr.times[0] }
func (tr *Track) To() time.Time   { return tr.times[len(tr.times)-1] }

// index returns the last sample not after t, held to the interval.
func (tr *Track) index(t time.Time) int {
	if len(tr.times) < 2 {
		return 0
	}
	i := int(t.Sub(tr.times[0]) / tr.times[1].Sub(tr.times[0]))
	return max(0, min(i, len(tr.times)-1))
}

// Path is χ along a track for one azimuth axis, unwrapped: continuous, so it may leave (−180°, 180°].
// Its first value is in that range.
type Path struct {
	track     *Track
	axis      Direction
	unwrapped []Angle
}

// Path follows χ along the track. Where the target comes within 1″ of the axis or a pole, so that χ does
// not exist, the value before is kept; nobody plans a run through there.
//
// Between samples χ is taken to turn by less than 180°: true of any target that misses the axis, since
// a whole passage beside it turns the field by less.
func (tr *Track) Path(axis Direction) *Path {
	p := &Path{track: tr, axis: axis, unwrapped: make([]Angle, len(tr.times))}
	pole := tr.frame.Pole()
	previous := Angle(0)
	for i, d := range tr.directions {
		chi, ok := FieldAngle(pole, d, axis)
		switch {
		case !ok:
			chi = previous
		case i > 0:
			chi = previous + (chi - previous).Signed()
		}
		p.unwrapped[i], previous = chi, chi
	}
	return p
}

// Axis returns the axis of the path.
func (p *Path) Axis() Direction { return p.axis }

// Track returns the track under the path.
func (p *Path) Track() *Track { return p.track }

// Unwrapped returns the values at the track's sampled instants. Do not change them.
func (p *Path) Unwrapped() []Angle { return p.unwrapped }

// At returns χ at t, exact, on the branch of the nearest sample.
func (p *Path) At(t time.Time) Angle {
	near := p.unwrapped[p.track.index(t)]
	chi, ok := FieldAngle(p.track.frame.Pole(), p.track.At(t), p.axis)
	if !ok {
		return near
	}
	return near + (chi - near).Signed()
}

// Rate returns dχ/dt at t; zero within 1″ of the axis, where there is none.
func (p *Path) Rate(t time.Time) Rate {
	rate, _ := FieldRate(p.track.frame.Pole(), p.track.At(t), p.axis)
	return rate
}

// Reversals returns the instants at which the field stops and turns back.
func (p *Path) Reversals() []time.Time {
	var reversals []time.Time
	pole := p.track.frame.Pole()
	growing := func(i int) bool {
		rate, _ := FieldRate(pole, p.track.directions[i], p.axis)
		return rate > 0
	}
	rate := func(t time.Time) Angle { return Angle(p.Rate(t)) }
	for i := 1; i < len(p.track.times); i++ {
		if growing(i-1) != growing(i) {
			reversals = append(reversals, Root(rate, p.track.times[i-1], p.track.times[i]))
		}
	}
	return reversals
}
