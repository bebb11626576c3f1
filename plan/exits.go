package plan

import (
	"math"
	"time"

	"duskhand/sky"
)

// exits finds when the derotator reaches a limit for one axis after another.
type exits struct {
	course *Course
	anchor Anchor
	until  time.Time
	room   room
	sense  float64
	first  sky.Direction // of the target, at the anchor
	dated  []sky.Direction
	times  []time.Time // after the anchor, up to until included
}

func (c *Course) exits(anchor Anchor, until time.Time) *exits {
	e := &exits{course: c, anchor: anchor, until: until, room: c.roomOf(anchor), sense: float64(c.Kit.Derotator.Sense)}
	e.first = c.track.At(anchor.At)
	times := c.track.Times()
	i := c.sampleAfter(anchor.At)
	for ; i < len(times) && times[i].Before(until); i++ {
		e.times, e.dated = append(e.times, times[i]), append(e.dated, c.track.Sampled()[i])
	}
	e.times, e.dated = append(e.times, until), append(e.dated, c.track.At(until))
	return e
}

// never is the exit, in seconds, of an axis for which no limit is reached.
const never = math.MaxFloat64

// of returns after how many seconds an axis reaches a limit, never if it does not before until. Its χ is
// unwrapped from sample to sample, as sky.Path does.
func (e *exits) of(axis sky.Direction) float64 {
	pole := e.course.frame.Pole()
	start, _ := sky.FieldAngle(pole, e.first, axis)
	before, at := e.anchor.At, 0.0 // the change by then
	last, slope := start, 0.0
	for i, next := range e.times {
		chi, ok := sky.FieldAngle(pole, e.dated[i], axis)
		if !ok {
			chi = last
		}
		step := e.sense * float64((chi - last).Signed())
		past := func(t time.Time) sky.Angle {
			chi, _ := sky.FieldAngle(pole, e.course.track.At(t), axis)
			change := at + e.sense*float64((chi-last).Signed())
			return sky.Angle(e.room.past(change, change) - touching)
		}
		if bend := math.Abs(step - slope); e.room.past(at+step-bend, at+step+bend) > 0 {
			if past(next) > 0 {
				return sky.Root(past, before, next).Sub(e.anchor.At).Seconds()
			}
			if peak := farthestBetween(past, before, next); past(peak) > 0 {
				return sky.Root(past, before, peak).Sub(e.anchor.At).Seconds()
			}
		}
		before, at, last, slope = next, at+step, chi, step
	}
	return never
}

// on returns the exit of the axis at a share of the way to the rim.
func (e *exits) on(share float64) func(around float64) float64 {
	return func(around float64) float64 { return e.of(e.course.axes.at(share, around)) }
}

// latest returns when the last axis reaches a limit; not OK when some axis reaches none.
//
// While the field turns one way the exit is latest on the rim, where the change is least. Where it turns back,
// axes that just clear a limit there go on for long: the exit jumps, and the latest may lie along the line of
// the jump inside. So each jump around the rim is followed inwards.
func (c *Course) latest(anchor Anchor, until time.Time) sky.Event {
	e := c.exits(anchor, until)
	sharps := []sharp{c.axes.sharpAt(e.first), c.axes.sharpAt(e.dated[len(e.dated)-1])}
	latest, jumps := e.latestOn(1, sharps)
	_, passes := c.passage(anchor.At, until)
	if latest != never && (jumps || passes) {
		latest = math.Max(latest, e.latestInside())
	}
	if latest == never {
		return sky.Event{}
	}
	return sky.Event{At: anchor.At.Add(seconds(latest)), OK: true}
}

// latestInside looks through rings of axes inside the rim, and between the two next to the best.
func (e *exits) latestInside() float64 {
	const rings = 5
	on := func(share float64) float64 { latest, _ := e.latestOn(share, nil); return latest }
	latest, best := 0.0, 0.0
	for ring := range rings {
		share := float64(ring) / rings
		if exit := on(share); exit > latest {
			latest, best = exit, share
		}
	}
	between, _ := narrowed(on, max(0, best-1.0/rings), min(1, best+1.0/rings))
	return math.Max(latest, between)
}

// latestOn returns the latest exit on one ring of axes, and whether the exit jumps somewhere on it.
func (e *exits) latestOn(share float64, sharps []sharp) (latest float64, jumps bool) {
	f := e.on(share)
	if share == 0 {
		return f(0), false
	}
	var exit [rimAxes]float64
	low, high := math.Inf(1), 0.0
	for k := range exit {
		exit[k] = f(place(k))
		if exit[k] == never {
			return never, true
		}
		low, high = math.Min(low, exit[k]), math.Max(high, exit[k])
	}
	for k := range exit {
		next := exit[(k+1)%rimAxes]
		if math.Abs(next-exit[k]) > jumpShare*(high-low) && high-low > 60 {
			jumps = true
			latest = math.Max(latest, jumpBetween(f, place(k), place(k+1), exit[k], next))
		}
	}
	smooth, _ := greatest(f, sharps...)
	return math.Max(latest, smooth), jumps
}

// place is where the k-th axis of the rim is.
func place(k int) float64 { return 2 * math.Pi * float64(k) / rimAxes }

// jumpShare is the share of the whole span of exits that two neighbours of the rim differ by at most while the
// exit is smooth: an eighth, where it goes up and down once.
const jumpShare = 0.35

// jumpBetween halves its way to where the exit jumps, and returns it on the later side there.
func jumpBetween(f func(float64) float64, from, to, atFrom, atTo float64) float64 {
	middle := (atFrom + atTo) / 2
	later := math.Max(atFrom, atTo)
	for range 24 {
		half := (from + to) / 2
		value := f(half)
		if value > middle {
			later = math.Max(later, value)
		}
		if (value > middle) == (atFrom > middle) {
			from = half
		} else {
			to = half
		}
	}
	return later
}

// earliestOfMany looks through axes everywhere in the region, and along both sides of the target's way over it,
// where the field turns fastest. For stages that turn further than once round, and keep turning through the
// mount's axis.
func (c *Course) earliestOfMany(anchor Anchor, until time.Time) (sky.Event, Side) {
	e := c.exits(anchor, until)
	soonest, axis := never, c.axes.centre
	try := func(a sky.Direction) {
		if exit := e.of(a); exit < soonest {
			soonest, axis = exit, a
		}
	}
	for ring := range 7 {
		for k := range rimAxes {
			try(c.axes.at(float64(ring)/6, place(k)))
		}
	}
	for _, d := range e.beside() {
		try(d)
	}
	if soonest == never {
		return sky.Event{}, NoLimit
	}
	at := anchor.At.Add(seconds(soonest))
	g := float64(c.Kit.Derotator.Sense) * c.track.Path(axis).Rate(at).DegreesPerHour()
	side := MaxLimit
	if g < 0 {
		side = MinLimit
	}
	return sky.Event{At: at, OK: true}, side
}

// beside returns axes on both sides of the target's way where it lies in the region, some seconds of it apart.
func (e *exits) beside() (axes []sky.Direction) {
	const step, off = 10 * time.Second, 5 * sky.Arcsecond
	for t := e.anchor.At; t.Before(e.until); t = t.Add(step) {
		d := e.course.track.At(t)
		if !e.course.axes.holds(d) {
			continue
		}
		along := e.course.track.At(t.Add(step)).Plus(-1, d)
		across := d.Cross(along).Unit()
		axes = append(axes, d.Plus(float64(off), across).Unit(), d.Plus(-float64(off), across).Unit())
	}
	return axes
}
