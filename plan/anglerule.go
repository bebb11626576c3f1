package plan

import (
	"math"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// AngleRule says at which camera angle the runs of a course begin. The zero rule is the longest run, at
// whatever angle it has.
type AngleRule struct {
	Keep   kit.KeepAngle
	Wanted sky.Angle // of date
	Alike  sky.Angle // the turn after which a frame covers the same sky: 180°, or 90° for a square chip
}

// RuleFor returns the rule of a target: what the kit or the night says of its camera angle, taken to date.
func (n *Night) RuleFor(target kit.Target) AngleRule {
	if target.CameraAngle == nil || target.Keep != kit.PreferAngle && target.Keep != kit.AlwaysKeep {
		return AngleRule{}
	}
	rule := AngleRule{Keep: target.Keep, Alike: 180 * sky.Degree}
	rule.Wanted = n.Frame.PositionAngleOfDate(target.Star.Place, n.Span.From, *target.CameraAngle)
	if n.Kit.Camera.Width == n.Kit.Camera.Height {
		rule.Alike = 90 * sky.Degree
	}
	return rule
}

// WithRule returns the same course under another rule.
func (c *Course) WithRule(rule AngleRule) *Course {
	ruled := *c
	ruled.Rule = rule
	return &ruled
}

// stretch returns the run that the rule wants from an instant on; ok is false when it wants none there.
// Where the wanted angle is only preferred, a run at it that no sub fits gives way to the longest.
func (c *Course) stretch(from, until time.Time) (s Stretch, ok bool) {
	if c.Rule.Keep != kit.PreferAngle && c.Rule.Keep != kit.AlwaysKeep {
		return c.PlannedRun(from, until), true
	}
	for _, reading := range c.startsWanted(from) {
		if run := c.From(Anchor{from, reading}, until); !ok || run.Until.After(s.Until) {
			s, ok = run, true
		}
	}
	if c.Rule.Keep == kit.AlwaysKeep || ok && s.Until.Sub(from) >= c.leastRun() {
		return s, ok
	}
	return c.PlannedRun(from, until), true
}

// startsWanted returns the readings that the stage can be set to at an instant to begin at the wanted angle.
func (c *Course) startsWanted(at time.Time) (starts []sky.Angle) {
	d := c.Kit.Derotator
	wanted := c.ReadingsGiving(c.Rule.Wanted, c.Rule.Alike, at)
	if !d.StopsAnywhere {
		wanted = []sky.Angle{c.nearestGiving(d.Min, at), c.nearestGiving(d.Max, at)}
	}
	for _, reading := range wanted {
		if reading, ok := d.Reach(reading); ok {
			starts = append(starts, reading)
		}
	}
	return starts
}

// nearestGiving returns the reading nearest to one, in the travel or not, that gives the wanted angle.
func (c *Course) nearestGiving(reading sky.Angle, at time.Time) sky.Angle {
	one := c.readingGiving(c.Rule.Wanted, at)
	return one + c.Rule.Alike*sky.Angle(math.Round(float64((reading-one)/c.Rule.Alike)))
}

// leastRun is the shortest run that a sub of the shortest exposure fits.
func (c *Course) leastRun() time.Duration {
	k := c.Kit
	shortest := time.Duration(math.MaxInt64)
	for _, filter := range k.Subs.Wanted() {
		shortest = min(shortest, filter.Exposure)
	}
	return k.Subs.Settle + shortest + k.Subs.Overhead + k.Derotator.Margin
}

// ReadingsGiving returns the readings within the derotator's travel that give a camera angle (of date), or
// one that differs by a multiple of alike, ascending; if there are none, the nearest below the travel and
// the nearest above.
func (c *Course) ReadingsGiving(cameraAngle, alike sky.Angle, at time.Time) []sky.Angle {
	d := c.Kit.Derotator
	one := c.readingGiving(cameraAngle, at)
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

// readingGiving returns a reading that gives a camera angle (of date), in the travel or not; it moves as the
// field turns, without a jump.
//
// θ = χ + zero − s·m, so m = s·(χ + zero − θ), and m ± alike as well.
func (c *Course) readingGiving(cameraAngle sky.Angle, at time.Time) sky.Angle {
	return sky.Angle(c.Kit.Derotator.Sense) * (c.FieldAngle(at) + c.Kit.Camera.AngleAtZero - cameraAngle)
}
