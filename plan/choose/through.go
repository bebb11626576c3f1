package choose

import (
	"math"
	"slices"

	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// Through is a target through one filter that it would be taken through.
type Through struct {
	Filter    string
	Suits     float64 // what the filter gives of what one made for the target's light would, 0 to 1
	Height    float64 // what a minute is worth in the windows against one at the zenith in full night, without Moon
	MoonTakes float64 // share of that which the Moon takes
	Guessed   bool    // the kit does not say how wide the filter's band is: a usual width is taken
}

// suited is how well a filter must suit a target for it to be taken through it, when the kit has others that do and
// the target has no filters of its own. Our choice.
const suited = 0.5

// prospect is a target through one filter, and what its minutes have added up to.
type prospect struct {
	light.Prospect
	number      int     // of the filter in the kit
	weight      float64 // its share of the exposure that is wanted
	alone, dark float64 // worth by height and twilight alone, and with moonlight, over the samples
}

// prospects returns the filters through which a target would be taken: all of its own, or else those of the kit that
// suit it, or else all of the kit's.
func (n *Night) prospects(target kit.Target) (source light.Source, all []prospect) {
	source, all = n.wanted(target)
	if fit, _ := parted(target, all); len(fit) > 0 {
		all = fit
	}
	total := 0.0
	for _, p := range all {
		total += p.weight
	}
	for i := range all {
		all[i].weight /= total
	}
	return source, all
}

// parted parts filters into those that suit a target and those that do not, of which a target with filters of its own
// has none.
func parted(target kit.Target, all []prospect) (fit, unfit []prospect) {
	for _, p := range all {
		if p.Suits >= suited || len(target.Filters) > 0 {
			fit = append(fit, p)
		} else {
			unfit = append(unfit, p)
		}
	}
	return fit, unfit
}

// Unsuited returns the filters through which the kit wants subs of every target and that hardly suit this one; none if
// no other does either.
func (n *Night) Unsuited(target kit.Target) (filters []Through) {
	_, all := n.wanted(target)
	fit, unfit := parted(target, all)
	if len(fit) == 0 {
		return nil
	}
	for _, p := range unfit {
		filters = append(filters, Through{Filter: p.View.Filter.Name, Suits: p.Suits, Guessed: p.View.Usual})
	}
	return filters
}

// wanted returns the filters through which subs of a target are wanted.
func (n *Night) wanted(target kit.Target) (source light.Source, all []prospect) {
	source = light.SourceOf(target.Object)
	k := n.Plan.Kit.For(target)
	for i, f := range k.Subs.Filters {
		if f.Count == 0 {
			continue
		}
		p := light.NewProspect(n.views[i], source, k.Site, exposure.DetectorPhotons(k, f))
		all = append(all, prospect{Prospect: p, number: i, weight: float64(f.Count) * f.Exposure.Seconds()})
	}
	return source, all
}

// add adds a sample up.
func (p *prospect) add(lit light.Lit, altitude, fromMoon sky.Angle, moonlight, twilit float64) {
	moonless := p.Worth(altitude, twilit)
	p.alone += moonless
	if moonlight == 0 {
		p.dark += moonless
		return
	}
	p.dark += p.Worth(altitude, moonlight*p.View.Moonlit(lit, altitude, fromMoon)+twilit)
}

// sum turns the sums of all filters into the shares of height, Moon and filters, and fills in the choice's list. What
// suits the target more counts more.
func (s *sight) sum(c *Choice, all []prospect) {
	var alone, dark, weights float64
	for _, p := range all {
		c.Through = append(c.Through, p.through(s.samples))
		s.suits += p.weight * p.Suits
	}
	for _, p := range all {
		weight := p.weight
		if s.suits > 0 {
			weight *= p.Suits
		}
		weights += weight
		alone, dark = alone+weight*p.alone, dark+weight*p.dark
	}
	if s.height, s.moon = 1, 1; alone == 0 { // nothing of it comes through: the filters' own factor says so
		return
	}
	s.height, s.moon = alone/weights/float64(s.samples), dark/alone
}

func (p prospect) through(samples int) Through {
	t := Through{Filter: p.View.Filter.Name, Suits: p.Suits, Height: p.alone / float64(samples), Guessed: p.View.Usual}
	if p.alone > 0 {
		t.MoonTakes = 1 - p.dark/p.alone
	}
	return t
}

// filterFactor lets a filter that is not made for the target's light count for as little as it gives.
func filterFactor(c Choice, s sight) Factor {
	misses := func(t Through) bool { return math.Round(100*t.Suits) < 100 }
	if s.samples == 0 || !slices.ContainsFunc(c.Through, misses) {
		return Factor{Of: ByFilter, Share: 1}
	}
	return Factor{ByFilter, math.Min(1, s.suits), true}
}
