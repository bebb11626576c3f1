package say

import (
	"duskhand/plan"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"duskhand/sky"
)

// What is worth a word in a pair's reason. All our choice: they move no pair, they only choose the words.
const (
	narrow        = 45 * sky.Degree  // apart: from here down the turn about the target suffers
	wide          = 135 * sky.Degree // from here up likewise
	besideTarget  = 25 * sky.Degree
	awayFromIt    = 60 * sky.Degree
	throughMuch   = 28 * sky.Degree // altitude under which the air is worth a word
	soon          = time.Hour
	goodPointing  = 1.3 // arcminutes for each arcminute of centring
	betweenExcess = 20 * sky.Degree
)

// Pair makes one sentence of what helps a pair of stars and what harms it, the one that prevails first, and of how it
// compares with the best.
func Pair(s *plan.StarSky, p plan.Pair) string {
	helps, harms := traits(s, p)
	first, second, link := helps, harms, ", but "
	if p.PerArcminute > goodPointing && len(harms) > 0 {
		first, second, link = harms, helps, ", though "
	}
	sentence := strings.Join(first, ", ")
	if len(first) > 0 && len(second) > 0 {
		sentence += link
	}
	sentence += strings.Join(second, ", and ") + beside(p)
	r, size := utf8.DecodeRuneInString(sentence)
	return string(unicode.ToUpper(r)) + sentence[size:] + "."
}

// beside compares a pair with the best: by the pointing, or where that is as good, by the roll.
func beside(p plan.Pair) string {
	switch v := p.Beside; {
	case v.Itself:
		return ""
	case v.Pointing > 0:
		return fmt.Sprintf("; %d %% more error at the target than the best pair", v.Pointing)
	case v.Less:
		return fmt.Sprintf("; %d %% less error at the target than the best pair, with a star that few know by name", -v.Pointing)
	case v.Roll > 0:
		return fmt.Sprintf("; %d %% more turn about the target than the best pair", v.Roll)
	}
	return "; as good as the best pair"
}

func traits(s *plan.StarSky, p plan.Pair) (helps, harms []string) {
	switch apart := whole(p.Separation); {
	case p.Separation < narrow:
		harms = append(harms, fmt.Sprintf("only %s apart, so that the turn about the target is unsure", apart))
	case p.Separation > wide:
		harms = append(harms, fmt.Sprintf("%s apart, so nearly opposite that the turn about the target is unsure", apart))
	default:
		helps = append(helps, fmt.Sprintf("%s apart", apart))
	}
	nearest := min(p.ToFirst, p.ToSecond)
	switch {
	case p.ToFirst+p.ToSecond < p.Separation+betweenExcess:
		helps = append(helps, "the target between them")
	case nearest < besideTarget:
		helps = append(helps, fmt.Sprintf("%s %s from the target", nearer(p).Star.Name(), whole(nearest)))
	case nearest > awayFromIt:
		harms = append(harms, fmt.Sprintf("both far from the target, %s and %s", whole(p.ToFirst), whole(p.ToSecond)))
	default:
		helps = append(helps, fmt.Sprintf("%s %s from the target", nearer(p).Star.Name(), whole(nearest)))
	}
	for _, c := range []*plan.Candidate{p.First, p.Second} {
		if c.Place.Altitude < throughMuch && !(p.Leaving == c && leavesSoon(p, s.At)) {
			harms = append(harms, fmt.Sprintf("%s is low, where the air bends most", c.Star.Name()))
		}
	}
	if leaves := p.Leaves(); leavesSoon(p, s.At) {
		harms = append(harms, fmt.Sprintf("%s %s in %s", p.Leaving.Star.Name(),
			leaving(leaves.By, leaves.Obstruction, s.AlignmentLimits()), inTime(leaves.At.Sub(s.At))))
	}
	return helps, harms
}

func leavesSoon(p plan.Pair, now time.Time) bool {
	leaves := p.Leaves()
	return leaves.OK && leaves.At.Sub(now) < soon
}

func nearer(p plan.Pair) *plan.Candidate {
	if p.ToFirst < p.ToSecond {
		return p.First
	}
	return p.Second
}
