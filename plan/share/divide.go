package share

import (
	"math"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/scan"
	"duskhand/sky"
)

// The figures that a division shows of other orders, the most targets of which one may be split, the time
// that one must lose to the keyhole before that is tried, and by how much it must pay: choices of ours.
const (
	ordersShown = 6
	splitUpTo   = 4
	splitGap    = 20 * time.Minute
	splitPays   = 0.03
)

// Divide divides a night among the wishes, for an axis as known, within its spread if a fit gave one. A
// target that can't be used gets nothing and says why; none has a stretch when none can be used.
//
// Range: the hand-overs are the best on a grid of five minutes, by the times of package scan; a camera angle
// that a target wants shortens its runs in the plan but does not weigh in the search. Of a target with two
// stretches the halves weigh alike, which is good and not always the best.
func Divide(n *plan.Night, axis kit.Axis, spread *plan.Spread, wishes []Wish, rules Rules) (Share, error) {
	if err := check(wishes); err != nil {
		return Share{}, err
	}
	if rules.From.Before(n.Span.From) {
		rules.From = n.Span.From
	}
	d := division{night: n, rules: rules, sky: scan.NewSky(n, axis, spread)}
	d.sort(wishes)
	if len(d.wishes) == 0 {
		return Share{LeftOut: d.leftOut}, nil
	}
	d.table = tableOf(d.sky, d.paths, d.need, rules)
	p, split := d.choose()
	s := Share{LeftOut: d.leftOut, Split: split}
	for _, other := range d.orders {
		s.Orders = append(s.Orders, d.figures(other))
	}
	d.plan(&s, p, func(t kit.Target) *plan.Course { return n.CourseWithin(t, axis, spread) })
	return s, nil
}

// division is a night being divided.
type division struct {
	night   *plan.Night
	rules   Rules
	sky     *scan.Sky
	wishes  []Wish // that can have something
	paths   []*scan.Path
	need    []time.Duration
	leftOut []LeftOut
	table   table
	orders  []placed // in one stretch each
	spare   bool     // the night has time to spare: all get all that they want
}

// haste is what a step of the grid is worth by which a night with time to spare is over sooner: five hundredths an
// hour. It outweighs the height that waiting would give, which is some hundredths, after an hour or two, and never a
// sub: the last of a hundred is worth more than its own minutes' haste. A choice of ours.
const haste = 0.05 * float64(grid) / float64(time.Hour)

// completes tells whether an order gives every target all that it wants.
func (d *division) completes(p placed) bool {
	for k, i := range p.order {
		if d.given(p, k).subs < d.need[i] {
			return false
		}
	}
	return true
}

// sort leaves out what can't be used.
func (d *division) sort(wishes []Wish) {
	k := d.night.Kit
	for _, w := range wishes {
		wanted := k.SubsFor(w.Target)
		path := d.sky.Follow(w.Target).From(d.rules.From)
		var why NoTurn
		switch left := Left(wanted, w.Subs); {
		case len(d.sky.Dark) == 0:
			why = NeverDark
		case left == 0:
			why = Wanted
		case len(path.Windows) == 0 && path.Keyhole() > 0:
			why = InKeyhole
		case len(path.Windows) == 0:
			why = NotUp
		case len(path.Runs(d.rules.From)) == 0:
			why = NoRun
		default:
			d.wishes, d.paths, d.need = append(d.wishes, w), append(d.paths, path), append(d.need, needOf(scan.PaceOf(wanted), left))
			continue
		}
		d.leftOut = append(d.leftOut, LeftOut{w.Target, why})
	}
}

// choose returns the best order, with one target in two stretches if that is allowed and pays.
func (d *division) choose() (p placed, split bool) {
	n := len(d.table.times)
	items := d.table.itemsOf(d.wishes, -1, d.rules.Care)
	d.orders = best(items, n, ordersShown, 0)
	if d.spare = d.completes(d.orders[0]); d.spare {
		d.orders = best(items, n, ordersShown, haste)
	}
	p = d.orders[0]
	if !d.rules.MaySplit || len(d.wishes) < 2 || len(d.wishes) > splitUpTo {
		return p, false
	}
	least := p.worth + splitPays
	for i, path := range d.paths {
		if path.Keyhole() < splitGap && len(path.Windows) < 2 {
			continue
		}
		items := d.table.itemsOf(d.wishes, i, d.rules.Care)
		two := best(items, n, 1, 0)[0]
		for k, of := range two.order {
			two.order[k] = items[of].wish
		}
		if two.worth = d.worth(two); two.worth > least {
			p, least, split = two, two.worth, true
		}
	}
	return p, split
}

// given returns what the k-th stretch of an order comes to.
func (d *division) given(p placed, k int) given {
	end := p.end
	if k+1 < len(p.begins) {
		end = p.begins[k+1]
	}
	if k == 0 {
		return d.table.first[p.order[k]][p.begins[k]][end]
	}
	return d.table.later[p.order[k]][p.begins[k]][end]
}

// worth is what an order of wishes comes to, the two stretches of one added up before the logarithm.
func (d *division) worth(p placed) (worth float64) {
	sums, total := make([]given, len(d.wishes)), 0.0
	for k, i := range p.order {
		g := d.given(p, k)
		sums[i].height = (sums[i].height*sums[i].subs.Hours() + g.height*g.subs.Hours()) / max(1e-6, (sums[i].subs+g.subs).Hours())
		sums[i].subs += g.subs
		sums[i].rewinds += g.rewinds
	}
	for _, w := range d.wishes {
		total += w.Weight
	}
	for i, w := range d.wishes {
		sums[i].subs = min(sums[i].subs, d.need[i])
		sums[i].height = max(sums[i].height, scan.Height(5*sky.Degree))
		worth += w.Weight / total * sums[i].worth(d.rules.Care)
	}
	return worth
}

// figures says an order in the terms of those who asked.
func (d *division) figures(p placed) Order {
	o := Order{Worth: math.Round(p.worth*1e6) / 1e6}
	for k, i := range p.order {
		g := d.given(p, k)
		o.Targets = append(o.Targets, d.wishes[i].Target.Name)
		o.Begins = append(o.Begins, d.table.times[p.begins[k]])
		o.Subs = append(o.Subs, g.subs)
		o.Rewinds += g.rewinds
	}
	return o
}
