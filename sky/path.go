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
	step       time.Duration
	times      []time.Time
	directions []Direction
}

// Track samples the directions of target from one instant to another, both included.
func (f *Frame) Track(target Fixed, from, to time.Time, step time.Duration) *Track {
	n := max(1, int(math.Ceil(to.Sub(from).Seconds()/step.Seconds())))
	tr := &Track{frame: f, target: target, step: step, times: make([]time.Time, n+1), directions: make([]Direction, n+1)}
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

// At returns the exact direction at t, also outside the sampled interval. At a sample it is that one.
func (tr *Track) At(t time.Time) Direction {
	if i := tr.before(t); i >= 0 && tr.times[i].Equal(t) {
		return tr.directions[i]
	}
	return tr.frame.Direction(tr.target, t)
}

// before returns the index of the last sample not later than t, -1 before the first.
func (tr *Track) before(t time.Time) int {
	since := t.Sub(tr.times[0])
	if since < 0 {
		return -1
	}
	if last := len(tr.times) - 1; !t.Before(tr.times[last]) {
		return last
	}
	return int(since / tr.step)
}

// From and To bound the sampled interval.
func (tr *Track) From() time.Time { return tr.times[0] }
func (tr *Track) To() time.Time   { return tr.times[len(tr.times)-1] }

// Knot is the value of χ at an instant, unwrapped along its path.
type Knot struct {
	At  time.Time
	Chi Angle
}

// Path is χ along a track for one azimuth axis, unwrapped: continuous, so it may leave (−180°, 180°].
// Its first value is in that range.
type Path struct {
	track *Track
	axis  Direction
	knots []Knot
}

// Path follows χ along the track. Where the target comes within 1″ of the axis or a pole, so that χ does
// not exist, the value before is kept; nobody plans a run through there.
//
// Between samples χ is taken to turn by less than 180°: true of any target that misses the axis, since
// a whole passage beside it turns the field by less.
func (tr *Track) Path(axis Direction) *Path {
	p := &Path{track: tr, axis: axis, knots: make([]Knot, 0, len(tr.times)+2)}
	pole := tr.frame.Pole()
	rate := func(t time.Time) Angle { return Angle(p.Rate(t)) }
	wasGrowing := false
	for i, d := range tr.directions {
		r, _ := FieldRate(pole, d, axis)
		growing := r > 0
		if i > 0 && growing != wasGrowing {
			turn := Root(rate, tr.times[i-1], tr.times[i])
			p.append(turn, pole, tr.At(turn))
		}
		wasGrowing = growing
		p.append(tr.times[i], pole, d)
	}
	return p
}

func (p *Path) append(t time.Time, pole, target Direction) {
	chi, ok := FieldAngle(pole, target, p.axis)
	if n := len(p.knots); n > 0 {
		previous := p.knots[n-1].Chi
		if !ok {
			chi = previous
		}
		chi = previous + (chi - previous).Signed()
	}
	p.knots = append(p.knots, Knot{t, chi})
}

// Axis returns the axis of the path.
func (p *Path) Axis() Direction { return p.axis }

// Track returns the track under the path.
func (p *Path) Track() *Track { return p.track }

// Knots returns χ at the track's samples and at each reversal between them, in order, so that it is
// monotonic from each to the next. Do not change them.
func (p *Path) Knots() []Knot { return p.knots }

// KnotAfter returns the index of the first knot later than t; len(Knots()) if there is none.
func (p *Path) KnotAfter(t time.Time) int {
	i := p.track.before(t) + 1 // the samples up to t, to which the reversals between them come
	for i < len(p.knots) && !p.knots[i].At.After(t) {
		i++
	}
	return i
}

// At returns χ at t, exact, on the branch of the nearest knot before it.
func (p *Path) At(t time.Time) Angle {
	knot := p.knots[max(0, p.KnotAfter(t)-1)]
	near := knot.Chi
	if knot.At.Equal(t) {
		return near
	}
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
	for i := 1; i+1 < len(p.knots); i++ {
		before, here, after := p.knots[i-1].Chi, p.knots[i].Chi, p.knots[i+1].Chi
		if (here > before) != (after > here) {
			reversals = append(reversals, p.knots[i].At)
		}
	}
	return reversals
}
