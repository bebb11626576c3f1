package advice_test

import (
	"math/rand/v2"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/sky"
)

// careless is the second person: late by minutes, forgets to say what was done, reads the scale wrong, turns to the
// wrong end, has clouds, quits and restarts the program, and changes the target. The camera program takes as many subs
// as were said to fit when it was started, and stops; after the first sub that a standing stage spoils the person looks
// at the scale.
//
// budget is the best exposure that the night allows, by package plan, with what this person loses charged: the time for
// which something was there to be done and was not, or what the plan gives less after it, clouds, and by how much the best from where a slip led is less
// than from where it was made.
type careless struct {
	*model
	r       *rand.Rand
	quick   *plan.Course
	kits    *plan.Course // with the loop that the kit says: by which the night is planned
	budget  time.Duration
	events  []happening
	cloud   bool
	slips   []string
	charged time.Time // up to when idle time has been charged
}

// happening is what comes over a night from outside.
type happening struct {
	at   time.Time
	name string
	do   func(c *careless, now time.Time) time.Time
}

func newCareless(n *model, r *rand.Rand, begin, end time.Time) *careless {
	c := &careless{model: n, r: r}
	c.follow()
	c.budget = c.value(begin)
	drawn := func(share float64, name string, do func(*careless, time.Time) time.Time) {
		if r.Float64() < share {
			at := begin.Add(time.Duration(r.Float64() * float64(end.Sub(begin))))
			c.events = append(c.events, happening{at, name, do})
		}
	}
	drawn(0.5, "cloud", (*careless).clouds)
	drawn(0.7, "restart", (*careless).restarts)
	drawn(0.3, "another target", (*careless).changes)
	return c
}

// follow plans for the present target, with the loop as quick as it can be.
func (c *careless) follow() {
	k := c.kit
	k.Subs.Loop = 7 * stepTakes
	c.quick = plan.NewNight(k, c.date).Course(c.target(), k.Axis)
	c.kits = plan.NewNight(c.kit, c.date).Course(c.target(), k.Axis)
}

// value is the best exposure from the state of the night on, for what is known of the axis.
func (c *careless) value(now time.Time) time.Duration { return c.valueBy(c.quick, now) }

func (c *careless) valueBy(course *plan.Course, now time.Time) time.Duration {
	start := plan.Start{At: now, Stage: &c.stage}
	if c.anchor != nil {
		start = plan.Start{At: now, Tracking: &plan.Anchor{At: now, Angle: c.angle(now)}}
	}
	return course.Schedule(start, plan.NewSequence(course.Kit.Subs)).Exposed()
}

// valueFrom is the same for a stage that tracks from an angle.
func (c *careless) valueFrom(now time.Time, angle sky.Angle) time.Duration {
	start := plan.Start{At: now, Tracking: &plan.Anchor{At: now, Angle: angle}}
	return c.quick.Schedule(start, plan.NewSequence(c.quick.Kit.Subs)).Exposed()
}

// costs charges by how much less is possible after something than before it, with a quick loop or with the kit's: a
// rewind that the kit calls not worth it any more is lost to who goes by the kit.
func (c *careless) costs(now time.Time, name string, do func()) {
	before, planned := c.value(now), c.valueBy(c.kits, now)
	do()
	c.budget -= max(before-c.value(now), planned-c.valueBy(c.kits, now))
	c.slips = append(c.slips, now.Format("15:04 ")+name)
}

// idles charges a time in which nothing was done although there was something to do; none is charged twice.
func (c *careless) idles(from, to time.Time) {
	if from.Before(c.charged) {
		from = c.charged
	}
	if c.exposes(to) || !from.Before(to) {
		return
	}
	c.charged = to
	var lost time.Duration
	for _, w := range c.quick.Windows() {
		lost += time.Duration(float64(w.Overlap(plan.Span{From: from, To: to})) * plan.NewSequence(c.quick.Kit.Subs).Duty())
	}
	if lost > 0 && c.subs == nil {
		lost = max(lost, c.valueBy(c.kits, from)-c.valueBy(c.kits, to))
	}
	c.budget -= lost
}

// exposes tells whether the camera program goes on at an instant.
func (c *careless) exposes(now time.Time) bool {
	if c.subs == nil || c.cloud {
		return false
	}
	working := c.kit.Subs.Filters[0].Exposure + c.kit.Subs.Overhead
	return now.Sub(*c.subs) < time.Duration(min(c.fits, 10000))*working
}

// late is how long this person takes to get round to something.
func (c *careless) late() time.Duration {
	if c.r.Float64() < 0.8 {
		return time.Duration(c.r.IntN(30)) * time.Second
	}
	return time.Duration(30+c.r.IntN(400)) * time.Second
}

func (c *careless) clouds(now time.Time) time.Time {
	last := time.Duration(10+c.r.IntN(50)) * time.Minute
	c.clouded = append(c.clouded, plan.Span{From: now, To: now.Add(last)})
	c.slips = append(c.slips, now.Format("15:04 ")+"cloud for "+last.String())
	c.cloud = true
	c.idles(now, now.Add(last))
	c.events = append(c.events, happening{now.Add(last), "clear", (*careless).clears})
	c.say(now, checklist.CloudCame{})
	return now
}

func (c *careless) clears(now time.Time) time.Time {
	c.cloud = false
	c.say(now, checklist.SkyCleared{})
	return now
}

// restarts has the program read its journal anew.
func (c *careless) restarts(now time.Time) time.Time {
	c.log, c.tonight = checklist.Fold(c.written), nil
	return now
}

func (c *careless) changes(now time.Time) time.Time {
	if c.log.DerotatorSince.IsZero() || c.other {
		return now
	}
	if c.subs != nil {
		c.stopSubs(now)
		c.say(now, checklist.StopSubs{})
	}
	c.costs(now, "another target", func() {
		angle := c.angle(now)
		c.other = true
		c.truth = c.trueCourse()
		if c.anchor != nil {
			c.anchor = &plan.Anchor{At: now, Angle: angle}
		}
		c.follow()
	})
	t := c.target()
	c.say(now, checklist.ChooseTarget{Target: checklist.Target{Name: t.Name, Star: t.Star}})
	return now
}

// acts does what is offered, in this person's way, and returns when it is done and said.
func (c *careless) acts(now time.Time, offer checklist.Action) time.Time {
	forgets := time.Duration(0)
	if c.r.Float64() < 0.04 {
		forgets = time.Duration(60+c.r.IntN(300)) * time.Second
	}
	switch a := offer.(type) {
	case checklist.Rewound:
		return c.turns(now, a, forgets)
	case checklist.TurnOn:
		if a.Angle != nil && c.r.Float64() < 0.08 {
			c.misreads(now, a.Angle)
		}
		now = now.Add(c.does(now, a))
	default:
		now = now.Add(c.does(now, offer))
	}
	c.idles(now, now.Add(forgets))
	if forgets > 0 {
		c.slips = append(c.slips, now.Format("15:04 ")+"forgets to say "+kindOf(offer))
	}
	now = now.Add(forgets)
	c.says(now, offer)
	return now
}

// says says what was done, and notes whether that is true.
func (c *careless) says(now time.Time, a checklist.Action) {
	c.say(now, a)
	if c.log.Anchor != nil && c.anchor != nil && c.log.Anchor.At.Equal(now) {
		c.untrue = (c.log.Anchor.Angle - c.angle(now)).Abs() > 0.15*sky.Degree
		c.budget -= max(0, c.valueFrom(now, c.angle(now))-c.valueFrom(now, c.log.Anchor.Angle)) // who believes it ends sooner
	}
}

// misreads changes an angle by some degrees, as who takes one mark for another.
func (c *careless) misreads(now time.Time, angle *sky.Angle) {
	d := c.kit.Derotator
	off := sky.Angle(1-2*c.r.IntN(2)) * sky.Angle(1+c.r.IntN(9)) * sky.Degree
	c.slips = append(c.slips, now.Format("15:04 ")+"reads the scale wrong by "+off.String())
	*angle = max(d.Min, min(d.Max, *angle+off))
}

// turns rewinds: now and then to the other end, which is said, or to where the scale is read wrong, which is not.
func (c *careless) turns(now time.Time, a checklist.Rewound, forgets time.Duration) time.Time {
	d := c.kit.Derotator
	said := a
	switch chance := c.r.Float64(); {
	case chance < 0.06:
		c.costs(now, "turns to the wrong end", func() {
			a.To = d.Min + d.Max - a.To
			now = now.Add(c.does(now, a))
		})
		said = a
	case chance < 0.12:
		c.misreads(now, &said.To)
		c.costs(now, "turned there", func() { now = now.Add(c.does(now, a)) })
	default:
		now = now.Add(c.does(now, a))
	}
	c.idles(now, now.Add(forgets))
	now = now.Add(forgets)
	said.From = nil
	c.says(now, said)
	return now
}

// looksAtScale is what the first evidence leads to: a sub in which the stage stood.
func (c *careless) looksAtScale(now time.Time) {
	c.stopSubs(now)
	c.say(now, checklist.StopSubs{})
	c.costs(now, "sees the field turn", func() { c.says(now, checklist.Read{Angle: c.angle(now)}) })
}

// evidence is when the first sub is over that a standing stage has spoilt; never while it follows.
func (c *careless) evidence(end time.Time) time.Time {
	if c.subs == nil || c.anchor == nil {
		return end
	}
	limit := c.truth.Limit(*c.anchor, end)
	sequence, at := plan.NewSequence(c.kit.Subs), *c.subs
	for range c.fits {
		sub, after, ok := sequence.Next(at)
		if !ok || !limit.At.OK {
			break
		}
		if sub.Exposure.To.After(limit.At.At) {
			return sub.Over
		}
		sequence, at = after, sub.Over
	}
	return end
}

// lives goes through the night.
func (c *careless) lives(begin, end time.Time) {
	var history []lived
	for now := begin; now.Before(end); {
		if i := c.due(now); i >= 0 {
			e := c.events[i]
			c.events = append(c.events[:i:i], c.events[i+1:]...)
			now = e.do(c, now)
			continue
		}
		if !now.Before(c.evidence(end)) {
			if !assert.True(c.t, c.untrue, "the field turned at %s, and all that was said was true", now) {
				return
			}
			now = now.Add(c.late())
			c.idles(now.Add(-c.kit.Subs.Filters[0].Exposure-7*time.Minute), now)
			c.looksAtScale(now)
			continue
		}
		m := c.at(now)
		a := advice.Decide(m, c.steps)
		if !c.rules(m, a) {
			return
		}
		if a.Offer == nil {
			now = c.sooner(until(c.model, a, now), now, end)
			continue
		}
		late := c.late()
		c.idles(now, now.Add(late))
		now = now.Add(late)
		if a = advice.Decide(c.at(now), c.steps); a.Offer == nil {
			continue
		}
		now = c.acts(now, a.Offer)
		history = append(history, lived{now, stateOf(c.model)})
		if !noCircle(c.t, history) {
			return
		}
		if _, subs := a.Offer.(checklist.StartSubs); subs {
			c.fits = len(c.at(now).Call.Subs)
		} else {
			now = now.Add(stepTakes)
		}
	}
	if c.subs != nil {
		c.stopSubs(end)
	}
}

// due is the first of what comes from outside that is due; −1 if none is.
func (c *careless) due(now time.Time) int {
	for i, e := range c.events {
		if !e.at.After(now) {
			return i
		}
	}
	return -1
}

// sooner is when this person looks next: when something comes from outside, or is seen.
func (c *careless) sooner(next, now, end time.Time) time.Time {
	for _, e := range c.events {
		if e.at.Before(next) {
			next = e.at
		}
	}
	if e := c.evidence(end); e.Before(next) {
		next = e
	}
	if !next.After(now) {
		return now.Add(time.Second)
	}
	return next
}
