package catalog

import (
	"cmp"
	"slices"
	"strings"
)

// mostNear is how many names an UnknownNameError offers.
const mostNear = 5

// longestName bounds the work on nonsense; the longest name of the catalogue has 32 letters.
const longestName = 64

// near returns the names most like an unknown one, the most alike first.
func near(name string) []string {
	asked := lookAlike(key(name))
	if len(asked) < 2 || len(asked) > longestName {
		return nil
	}
	type suggestion struct {
		name     string
		distance int
	}
	var found []suggestion
	consider := func(o Object) {
		best := suggestion{distance: 1 + tolerance(asked)}
		for _, candidate := range o.Names {
			if o.Kind == Star && !isProperName(candidate) {
				continue
			}
			if d := distanceTo(asked, candidate); d < best.distance {
				best = suggestion{candidate, d}
			}
		}
		if best.name != "" {
			found = append(found, best)
		}
	}
	for _, o := range allDeepSky() {
		consider(o)
	}
	for _, o := range allStars() {
		if isProperName(o.Names[0]) || len(o.Names) > 3 {
			consider(o)
		}
	}
	slices.SortStableFunc(found, func(a, b suggestion) int { return cmp.Compare(a.distance, b.distance) })
	var names []string
	for _, s := range found[:min(len(found), mostNear)] {
		names = append(names, s.name)
	}
	return names
}

// tolerance is how many slips a name of that length may have: a third of its letters, at most three,
// but one in a number, where two slips are another object.
func tolerance(asked string) int {
	if strings.ContainsAny(asked, "23456789") {
		return 1
	}
	return max(1, min(3, len(asked)/3))
}

// distanceTo returns the slips between what was asked and a name, with or without its last word. A
// name that begins with it counts one.
func distanceTo(asked, name string) int {
	k := lookAlike(key(name))
	d := slips(asked, k)
	if s, ok := stem(name); ok {
		d = min(d, slips(asked, lookAlike(s)))
	}
	if len(asked) >= 4 && strings.HasPrefix(k, asked) {
		d = min(d, 1)
	}
	return d
}

// lookAlike makes letters and digits alike that are mistaken for each other, O and 0, l, I and 1.
func lookAlike(k string) string {
	return strings.NewReplacer("o", "0", "l", "1", "i", "1").Replace(k)
}

// slips returns the letters to put in, take out, change or swap with the next to get from a to b: the
// optimal string alignment distance. It counts bytes, near enough for suggestions.
func slips(a, b string) int {
	if d := len(a) - len(b); d > 3 || d < -3 {
		return max(len(a), len(b))
	}
	previous, current, next := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range current {
		current[j] = j
	}
	for i := 1; i <= len(a); i++ {
		next[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			next[j] = min(current[j]+1, next[j-1]+1, current[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				next[j] = min(next[j], previous[j-2]+1)
			}
		}
		previous, current, next = current, next, previous
	}
	return current[len(b)]
}
