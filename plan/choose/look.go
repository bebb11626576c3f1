package choose

import (
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/plan/scan"
	"duskhand/sky"
)

// look follows one target through the night.
func (n *Night) look(target kit.Target, wish Wish, goals map[string]Goal) Choice {
	whole := n.skyFor(target).scan.Follow(target)
	path := whole.From(wish.From)
	c := Choice{Target: target, Windows: path.Windows, Up: path.Usable(), Keyhole: path.Keyhole(), Size: n.sizeOf(target)}
	n.turning(&c, path, wish.From)
	seen, source := n.seen(&c, path, wish.Weights, n.Plan.Span)
	n.notUp(&c, whole.Windows)
	n.goal(&c, goals)
	c.ByLines = source.ByLines()
	c.Factors = []Factor{turningFactor(c), heightFactor(seen), moonFactor(seen), framingFactor(c.Size, wish.Weights), n.goalFactor(c, wish.Weights),
		filterFactor(c, seen)}
	worth := float64(c.Up)
	for _, f := range c.Factors {
		worth *= f.Share
	}
	c.Worth = time.Duration(worth)
	return c
}

// turning fills in what the derotator makes of the night. The kit's own targets are planned exactly, so that
// their rewinds are those that every screen shows, and with the camera angle that they want, of which the
// scan knows nothing.
func (n *Night) turning(c *Choice, path *scan.Path, from time.Time) {
	if len(c.Windows) == 0 {
		return
	}
	if n.ours(c.Target) {
		runs := n.exactly(c.Target, from)
		for _, run := range runs.Runs {
			c.Working += run.Working()
		}
		c.Rewinds, c.OneRun = len(runs.Rewinds), len(runs.Runs) == 1 && !runs.Runs[0].Limit.Early.OK
		return
	}
	runs, settle := path.Runs(from), n.Plan.Kit.Subs.Settle
	for i, run := range runs {
		c.Working += run.Length() - settle
		if i > 0 && run.Rewind > 0 {
			c.Rewinds++
		}
	}
	c.OneRun = len(runs) == 1 && !runs[0].Spent
}

// exactly plans a target as the screens do, with a sequence that the night does not exhaust.
func (n *Night) exactly(target kit.Target, from time.Time) plan.Schedule {
	if from.Before(n.Plan.Span.From) {
		from = n.Plan.Span.From
	}
	subs := n.Plan.Kit.SubsFor(target)
	subs.Filters = append([]kit.Filter(nil), subs.Filters...)
	for i := range subs.Filters {
		if subs.Filters[i].Count == 0 {
			continue
		}
		subs.Filters[i].Count = max(subs.Filters[i].Count, int(24*time.Hour/max(time.Second, subs.Filters[i].Exposure)))
	}
	return n.Plan.CourseWithin(target, n.axis, n.spread).Schedule(plan.Start{At: from}, plan.NewSequence(subs))
}

// ours tells whether the kit names the target, or it wants a camera angle as those do.
func (n *Night) ours(target kit.Target) bool {
	return n.Plan.RuleFor(target) != (plan.AngleRule{}) ||
		slices.ContainsFunc(n.Plan.Kit.Targets, func(t kit.Target) bool { return t.Name == target.Name && t.Star == target.Star })
}

// sight is what the sky is like on the average over the samples in the windows.
type sight struct {
	samples      int
	height, moon float64 // the worth of a sample by height alone, and what the Moon leaves of it
	suits        float64 // how well the filters suit the target, by the exposure wanted of each
	moonUp       int     // samples with the Moon up
}

// seen looks at the samples of a path that lie in any of some spans.
func (n *Night) seen(c *Choice, path *scan.Path, w Weights, within ...plan.Span) (s sight, source light.Source) {
	over := n.skyFor(c.Target)
	source, all := n.prospects(c.Target)
	c.Highest, c.Moon.Nearest = -90*sky.Degree, 180*sky.Degree
	for i, d := range path.Inside() {
		if !inAny(within, over.scan.Times()[i]) {
			continue
		}
		moon, up := over.glow[i], altitudeOf(d)
		fromMoon := d.Separation(moon.direction)
		for f := range all {
			all[f].add(over.lit[all[f].number][i], up, fromMoon, w.Moonlight, over.dusk[all[f].number][i])
		}
		c.Rate += sky.Rate(sky.Angle(path.Rate(i)).Abs()) // sums, until mean
		if up > c.Highest {
			c.Highest, c.HighestAt = up, over.scan.Times()[i]
		}
		s.note(c, moon, fromMoon)
	}
	n.mean(c, &s, all)
	return s, source
}

// note adds the Moon of a sample up.
func (s *sight) note(c *Choice, moon glow, away sky.Angle) {
	s.samples++
	c.Moon.Illuminated += moon.illuminated
	if moon.up {
		s.moonUp++
		c.Moon.Nearest = min(c.Moon.Nearest, away)
	}
}

// mean makes means of the sums over the samples.
func (n *Night) mean(c *Choice, s *sight, all []prospect) {
	if s.samples == 0 { // no window, or none of two minutes
		c.Highest, c.Moon.Nearest = 0, 0
		return
	}
	c.Rate /= sky.Rate(s.samples)
	c.Moon.Illuminated /= float64(s.samples)
	s.sum(c, all)
	c.Moon.Up = time.Duration(float64(c.Up) * float64(s.moonUp) / float64(s.samples))
	n.moonTurns(c)
}

func inAny(spans []plan.Span, t time.Time) bool {
	return slices.ContainsFunc(spans, func(s plan.Span) bool { return !t.Before(s.From) && !t.After(s.To) })
}

// MoonOn returns what the Moon does to a target in windows of the night, and what it takes through each filter: none
// when no window is two minutes long.
func (n *Night) MoonOn(target kit.Target, windows []plan.Window) (Moon, []Through) {
	c := Choice{Target: target, Windows: windows}
	var spans []plan.Span
	for _, w := range windows {
		c.Up += w.Length()
		spans = append(spans, w.Span)
	}
	n.seen(&c, n.skyFor(target).scan.Follow(target), Weights{}.filled(), spans...)
	return c.Moon, c.Through
}

// moonTurns notes when the Moon rises or sets while the target is up.
func (n *Night) moonTurns(c *Choice) {
	for _, w := range c.Windows {
		if e := n.Plan.Moonrise; e.OK && w.Contains(e.At) {
			c.Moon.Rises = e
		}
		if e := n.Plan.Moonset; e.OK && w.Contains(e.At) {
			c.Moon.Sets = e
		}
	}
}
