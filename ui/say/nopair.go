package say

import (
	"fmt"
	"strings"

	"duskhand/plan"
)

// NoPair says why there is no pair of stars, and what would help.
func NoPair(s *plan.StarSky, n plan.NoPair) string {
	if !n.None {
		return ""
	}
	said := []string{lacking(s, n)}
	if n.Later != nil {
		said = append(said, waiting(s, *n.Later))
	}
	for _, e := range n.Easier {
		said = append(said, fmt.Sprintf("With %s, %s and %s would do now.", easier(e), e.First.Star.Name(), e.Second.Star.Name()))
	}
	return strings.Join(said, " ")
}

// lacking says what there is instead of a pair.
func lacking(s *plan.StarSky, n plan.NoPair) string {
	settings := s.Kit.Stars
	switch len(n.Fit) {
	case 0:
		return fmt.Sprintf("No star to magnitude %.1f is fit now%s.", settings.FaintestMag, keptOut(n))
	case 1:
		return fmt.Sprintf("Only %s is fit now%s.", n.Fit[0].Star.Name(), keptOut(n))
	}
	return fmt.Sprintf("%d stars are fit now, none of them %s to %s from another.", len(n.Fit), whole(settings.Nearest), whole(settings.Farthest))
}

// keptOut says what keeps out most of the stars that are up.
func keptOut(n plan.NoPair) string {
	unfit := map[plan.Unfit]string{plan.TooLow: "too low", plan.TooHigh: "too near the mount's axis", plan.Obstructed: "behind the skyline",
		plan.TooFaint: "too faint for the twilight", plan.NearMoon: "too near the Moon", plan.Confusable: "too like a neighbour",
		plan.NearSun: "too near the Sun", plan.NotKnown: "not among stars.known"}
	switch {
	case n.SunUp:
		return ": the Sun is up"
	case n.Up == 0:
		return ""
	case n.Up == 1:
		return fmt.Sprintf("; the one other that is up is %s", unfit[n.By])
	}
	return fmt.Sprintf("; of the others that are up %d of %d are %s", n.Most, n.Up, unfit[n.By])
}

// waiting says what each star of a later pair does until then that is not fit now.
func waiting(s *plan.StarSky, later plan.LaterPair) string {
	var events []string
	for _, r := range later.Until {
		events = append(events, ceases(r))
	}
	pair := later.First.Star.Name() + " and " + later.Second.Star.Name() + " will do"
	if len(events) == 0 {
		return fmt.Sprintf("In %s %s.", inTime(later.At.Sub(s.At)), pair)
	}
	return fmt.Sprintf("In %s %s: then %s.", inTime(later.At.Sub(s.At)), strings.Join(events, ", and "), pair)
}

// ceases says what will have happened when a star has become fit.
func ceases(r plan.Rejected) string {
	name := r.Star.Name()
	switch r.Unfit {
	case plan.NearSun:
		return "the Sun is down or far from " + name
	case plan.Down, plan.TooLow:
		return fmt.Sprintf("%s is %s up", name, whole(r.Limits.Lowest))
	case plan.TooHigh:
		return fmt.Sprintf("%s is down to %s", name, whole(r.Limits.Highest))
	case plan.Obstructed:
		return name + " clears " + the(r.Obstruction)
	case plan.TooFaint:
		return name + " comes out of the dusk"
	}
	return name + " is clear of the Moon"
}

// easier says how a setting would be eased.
func easier(e plan.Easier) string {
	switch e.Setting {
	case plan.FainterStars:
		return fmt.Sprintf("stars to magnitude %.1f (stars.faintest_mag)", e.Magnitude)
	case plan.LowerStars:
		return fmt.Sprintf("stars down to %s (stars.lowest_deg)", whole(e.Angle))
	case plan.NearerStars:
		return fmt.Sprintf("stars as near as %s to each other (stars.nearest_deg)", whole(e.Angle))
	}
	return fmt.Sprintf("stars as near as %s to the Moon (stars.moon_glare_deg)", whole(e.Angle))
}
