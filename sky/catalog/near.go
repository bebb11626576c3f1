package catalog

import (
	"cmp"
	"math/bits"
	"slices"
	"strings"
	"sync"
)

// mostNear is how many names an UnknownNameError offers.
const mostNear = 5

// longestName bounds the work on nonsense; the longest name of the catalogue has 32 letters.
const longestName = 64

// candidate is a name to suggest, in the forms that an unknown one is compared with.
type candidate struct {
	name, key string
	stem      string // the key without "Nebula" and the like; "" if it has none
	letters   uint64 // of key, as lettersOf
	bearer    int    // counts objects: of the names of one only the nearest is suggested
}

// candidates returns the names to suggest: all of deep-sky objects, the proper ones of stars.
var candidates = sync.OnceValue(func() []candidate {
	var list []candidate
	bearer := 0
	consider := func(o *Object) {
		bearer++
		for _, name := range o.Names {
			if o.Kind == Star && !isProperName(name) {
				continue
			}
			k := lookAlike(key(name))
			s, _ := stem(name)
			list = append(list, candidate{name, k, lookAlike(s), lettersOf(k), bearer})
		}
	}
	for i := range allDeepSky() {
		consider(&allDeepSky()[i])
	}
	for i := range allStars() {
		consider(&allStars()[i])
	}
	return list
})

// near returns the names most like an unknown one, the most alike first.
func near(name string) []string {
	asked := lookAlike(key(name))
	if len(asked) < 2 || len(asked) > longestName {
		return nil
	}
	type suggestion struct {
		*candidate
		distance int
	}
	var found []suggestion
	all, most, letters := candidates(), tolerance(asked), lettersOf(asked)
	for i := range all {
		c := &all[i]
		if bits.OnesCount64(letters&^c.letters) > most { // a slip mends one letter at most
			continue
		}
		d := c.distance(asked, most)
		switch last := len(found) - 1; {
		case d > most:
		case last >= 0 && found[last].bearer == c.bearer:
			if d < found[last].distance {
				found[last] = suggestion{c, d}
			}
		default:
			found = append(found, suggestion{c, d})
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

// distance returns the slips between what was asked and the name, with or without its last word; any number
// above most stands for more than most. A name that begins with what was asked counts one.
func (c *candidate) distance(asked string, most int) int {
	d := slips(asked, c.key, most)
	if c.stem != "" {
		d = min(d, slips(asked, c.stem, most))
	}
	if len(asked) >= 4 && strings.HasPrefix(c.key, asked) {
		d = min(d, 1)
	}
	return d
}

// lettersOf returns the set of letters in a key. Letters beyond ASCII share their bits with others, so that it
// may be too small a set and never leaves out a name that is near.
func lettersOf(k string) (set uint64) {
	for i := range len(k) {
		set |= 1 << (k[i] % 64)
	}
	return set
}

// lookAlike makes letters and digits alike that are mistaken for each other, O and 0, l, I and 1.
func lookAlike(k string) string { return alike.Replace(k) }

// alike is only read; a Replacer is safe for that.
var alike = strings.NewReplacer("o", "0", "l", "1", "i", "1")

// slips returns the letters to put in, take out, change or swap with the next to get from a to b: the
// optimal string alignment distance, or most+1 if it is above most. It counts bytes, near enough for
// suggestions. Both texts have at most longestName bytes.
func slips(a, b string, most int) int {
	if d := len(a) - len(b); d > most || d < -most {
		return most + 1
	}
	var one, two, three [longestName + 1]int
	previous, current, next := one[:len(b)+1], two[:len(b)+1], three[:len(b)+1]
	for j := range current {
		current[j] = j
	}
	for i := 1; i <= len(a); i++ {
		next[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			next[j] = min(current[j]+1, next[j-1]+1, current[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				next[j] = min(next[j], previous[j-2]+1)
			}
			least = min(least, next[j])
		}
		if least > most+1 { // a swap reaches back over one row, which saves one slip at most
			return most + 1
		}
		previous, current, next = current, next, previous
	}
	return min(current[len(b)], most+1)
}
