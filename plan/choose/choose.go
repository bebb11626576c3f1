// Package choose ranks targets for one night, and the nights of a year for one target.
//
// What a target is worth tonight is a length of time: so many hours at the zenith under a dark sky, without
// a rewind, of an object that fits the chip, through filters made for its light. It is the time that it is up,
// times one factor each for the derotator's turning, for height, for moonlight, for framing, for goals and for
// filters. Turning, height, moonlight and filters are computed; what framing and goals count for are choices of
// ours, and stand in Weights with their defaults.
//
// Times come from package scan and share its errors, but for the runs of the kit's own targets, which are
// planned exactly. A rewind more or less before a last short run is the most that the others have been seen
// to be off. Everything is a pure function of its arguments.
package choose

import (
	"context"
	"sort"
	"time"

	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/plan/scan"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Choice is one target as it is tonight.
type Choice struct {
	Target    kit.Target
	Windows   []plan.Window
	NotUp     NotUp         // why there is none, or none any more
	Over      plan.Window   // of NoMore: its last
	Up        time.Duration // the windows together
	Working   time.Duration // of it subs can be taken, rewinds and all else that turning costs taken off
	Rewinds   int
	OneRun    bool          // the derotator lasts through all that the target is up, without a rewind
	Keyhole   time.Duration // dark and clear, but too near the mount's axis
	Highest   sky.Angle     // airless, in the windows
	HighestAt time.Time
	Rate      sky.Rate // the field's rotation, mean of its size over the windows
	Moon      Moon
	Through   []Through // the filters that it would be taken through; none when it is not up
	ByLines   bool      // it is a glowing gas, and shines in lines
	Size      Size
	Goal      *Goal    // what earlier nights left to do; nil where none is known
	Spare     bool     // the night gives more than that
	Factors   []Factor // in a fixed order; Up times all of them is Worth
	Worth     time.Duration
}

// Begin returns when the first window opens; ok is false when there is none.
func (c Choice) Begin() (at time.Time, ok bool) {
	if len(c.Windows) == 0 {
		return time.Time{}, false
	}
	return c.Windows[0].From, true
}

// Goal is what a target has come to on earlier nights: exposure taken, and what is left of what is wanted.
type Goal struct{ Taken, Left time.Duration }

// Wish is what a ranking is asked for. The zero Wish asks for everything from dusk on.
type Wish struct {
	Filter
	From  time.Time       // nothing before it counts
	Goals map[string]Goal // by the target's name or any other name of the object
	Weights
}

// Night is one night made ready for looking at many targets.
type Night struct {
	Plan   *plan.Night
	axis   kit.Axis
	spread *plan.Spread
	sky    skyOf         // dark enough for the kit's filters
	lines  skyOf         // dark enough for targets taken through line filters alone
	views  []*light.View // by the kit's filters
	field  framing.Sensor
	lacks  []string // the kit's values without which the field's size is not known
}

// NewNight makes a night ready, for an axis as known, within its spread if a fit gave one.
func NewNight(n *plan.Night, axis kit.Axis, spread *plan.Spread) *Night {
	night := &Night{Plan: n, axis: axis, spread: spread}
	for _, f := range n.Kit.Subs.Filters {
		night.views = append(night.views, light.Through(f, n.Kit.Site))
	}
	night.sky = skyOver(scan.NewSky(n, axis, spread), night.views)
	night.lines = night.sky
	for _, t := range n.Kit.Targets {
		if n.Kit.DarkSunFor(t) != n.Kit.DarkSunFor(kit.Target{}) {
			night.lines = skyOver(scan.Of(n.Kit, n.Frame, n.DarkFor(t), axis, spread), night.views)
			break
		}
	}
	night.lacks = lacksField(n.Kit)
	if len(night.lacks) == 0 {
		night.field = framing.MainSensor(n.Kit)
	}
	return night
}

// skyFor returns the sky that is dark enough for a target.
func (n *Night) skyFor(target kit.Target) skyOf {
	if n.Plan.Kit.DarkSunFor(target) != n.Plan.Kit.DarkSunFor(kit.Target{}) {
		return n.lines
	}
	return n.sky
}

// Targets returns the kit's targets and after them the objects of the catalogue that are none of them.
func Targets(k kit.Kit) []kit.Target {
	ours := map[string]bool{}
	all := append([]kit.Target(nil), k.Targets...)
	for _, t := range k.Targets {
		ours[t.Object.ID] = true
	}
	for _, o := range catalog.DeepSky() {
		if !ours[o.ID] {
			all = append(all, kit.Target{Name: o.ID, Star: o.Star, Object: o})
		}
	}
	return all
}

// Rank returns the targets that the wish lets through, the best first, those worth nothing last by name.
//
// progress, which may be nil, is called after each target. Error: that of ctx, when it ends first.
func (n *Night) Rank(ctx context.Context, targets []kit.Target, wish Wish, progress func(done, total int)) ([]Choice, error) {
	wish.Weights = wish.Weights.filled()
	goals := foldedGoals(wish.Goals)
	ranked := make([]Choice, 0, len(targets))
	for i, target := range targets {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if wish.wants(target) {
			c := n.look(target, wish, goals)
			if wish.keeps(c) {
				ranked = append(ranked, c)
			}
		}
		if progress != nil {
			progress(i+1, len(targets))
		}
	}
	sort.SliceStable(ranked, func(i, j int) bool {
		if ranked[i].Worth != ranked[j].Worth {
			return ranked[i].Worth > ranked[j].Worth
		}
		return ranked[i].Target.Name < ranked[j].Target.Name
	})
	return ranked, nil
}
