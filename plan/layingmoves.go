package plan

import (
	"math"
	"slices"
)

// value returns what an order is worth, and the order as the time has room for it: what it leaves out follows.
func (l *laying) value(parts []part) (float64, []part) {
	c, left := l.begins, slices.Clone(l.left)
	var done []part
	add := func(place, n int) {
		var taken int
		if c, taken = l.takeSome(c, place, min(n, left[place])); taken > 0 {
			left[place] -= taken
			done = append(done, part{place, taken})
		}
	}
	for _, p := range parts {
		add(p.filter, p.count)
	}
	for place, n := range left {
		add(place, n)
	}
	return c.value, merged(done)
}

// mostRounds bounds the improvement; few orders need more than three.
const mostRounds = 12

// improved makes an order better by small changes until none helps.
func (l *laying) improved(parts []part) []part {
	most, parts := l.value(parts)
	if !l.long(parts) { // any that is will do better
		most = math.Inf(-1)
	}
	for range mostRounds {
		better := false
		for _, other := range l.neighbours(parts) {
			if value, done := l.value(other); value > most+same && l.long(done) {
				most, parts, better = value, done, true
				break
			}
		}
		if !better {
			return parts
		}
	}
	return parts
}

// long tells that no group is shorter than it may be: of a filter that has only one group it may, and the last may
// that the time cuts short.
func (l *laying) long(parts []part) bool {
	cut := total(parts) < sum(l.left)
	for i, p := range parts {
		if p.count >= l.shortest || i == len(parts)-1 && cut {
			continue
		}
		for j, q := range parts {
			if j != i && q.filter == p.filter {
				return false
			}
		}
	}
	return true
}

// total returns how many subs an order has.
func total(parts []part) (n int) {
	for _, p := range parts {
		n += p.count
	}
	return n
}

func sum(counts []int) (n int) {
	for _, c := range counts {
		n += c
	}
	return n
}

// neighbours returns orders that differ a little: two neighbours change places, subs move between groups of one
// filter, a group gets more of what is left over, or a group is divided.
func (l *laying) neighbours(parts []part) (all [][]part) {
	with := func(change func(parts []part)) {
		other := slices.Clone(parts)
		change(other)
		all = append(all, merged(other))
	}
	for i := range parts {
		for j := i + 1; j < len(parts); j++ {
			with(func(o []part) { o[i], o[j] = o[j], o[i] })
			if parts[i].filter != parts[j].filter {
				continue
			}
			for k := 1; k <= max(parts[i].count, parts[j].count); k *= 2 {
				with(func(o []part) { n := min(k, o[i].count); o[i].count -= n; o[j].count += n })
				with(func(o []part) { n := min(k, o[j].count); o[j].count -= n; o[i].count += n })
			}
			with(func(o []part) { o[j].count += o[i].count; o[i].count = 0 })
			with(func(o []part) { o[i].count += o[j].count; o[j].count = 0 })
		}
		for k := 1; k <= l.left[parts[i].filter]; k *= 2 {
			with(func(o []part) { o[i].count += k })
			with(func(o []part) { o[i].count = max(0, o[i].count-k) })
		}
	}
	return all
}
