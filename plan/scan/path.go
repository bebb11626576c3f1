package scan

import (
	"iter"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Path is a target's way through a scanned night.
type Path struct {
	Target  kit.Target
	Windows []plan.Window // as plan.Course.Windows gives them
	Clear   []plan.Span   // dark and clear of floor and horizon profile, keyhole or not

	sky        *Sky
	directions []sky.Direction
	reached    []reach // one for each window
}

// Follow looks a target up through the night.
func (s *Sky) Follow(target kit.Target) *Path {
	p := &Path{Target: target, sky: s}
	fixed := s.frame.Fix(target.Star)
	p.directions = make([]sky.Direction, len(s.times))
	for i, t := range s.times {
		p.directions[i] = s.frame.Direction(fixed, t)
	}
	for _, b := range s.blocks {
		p.windowsOf(b)
	}
	return p
}

// Usable returns how long the windows last together.
func (p *Path) Usable() (total time.Duration) {
	for _, w := range p.Windows {
		total += w.Length()
	}
	return total
}

// Keyhole returns how long the target is dark and clear but cannot be followed, near the mount's axis.
func (p *Path) Keyhole() (total time.Duration) {
	for _, c := range p.Clear {
		total += c.Length()
	}
	return total - p.Usable()
}

// Inside returns the samples within windows, by their number among the sky's Times: the target's direction
// there, east, north, up, airless. A window shorter than two minutes may have none.
func (p *Path) Inside() iter.Seq2[int, sky.Direction] {
	return func(yield func(int, sky.Direction) bool) {
		for _, w := range p.Windows {
			b := p.sky.blockAt(w.From)
			for i := b.after(w.From); i <= b.last && !p.sky.times[i].After(w.To); i++ {
				if !yield(i, p.directions[i]) {
					return
				}
			}
		}
	}
}

// Rate returns the field's rotation rate at a sample for the axis as known, positive through east.
func (p *Path) Rate(sample int) sky.Rate {
	rate, _ := sky.FieldRate(p.sky.pole, p.directions[sample], p.sky.nominal)
	return rate
}

// blockAt returns the block that an instant lies in, the last if it lies in none.
func (s *Sky) blockAt(t time.Time) block {
	for _, b := range s.blocks {
		if !t.After(b.To) {
			return b
		}
	}
	return s.blocks[len(s.blocks)-1]
}

// after returns the first sample of the block at t or later, last+1 if there is none.
func (b block) after(t time.Time) int {
	if !t.After(b.From) {
		return b.first
	}
	i := b.first + int((t.Sub(b.From)+b.step-1)/b.step)
	if i >= b.last && !t.After(b.To) {
		return b.last
	}
	return i
}

// From returns the path with what lies before an instant left out.
func (p *Path) From(t time.Time) *Path {
	if len(p.sky.times) == 0 || !t.After(p.sky.times[0]) {
		return p
	}
	rest := &Path{Target: p.Target, sky: p.sky, directions: p.directions}
	for i, w := range p.Windows {
		if w.To.After(t) {
			w.From = later(w.From, t)
			rest.Windows = append(rest.Windows, w)
			rest.reached = append(rest.reached, p.reached[i])
		}
	}
	for _, c := range p.Clear {
		if c.To.After(t) {
			c.From = later(c.From, t)
			rest.Clear = append(rest.Clear, c)
		}
	}
	return rest
}

// Kit returns the kit that the path is followed with.
func (p *Path) Kit() kit.Kit { return p.sky.Kit }

// Times returns the sampled instants that Inside numbers. Do not change them.
func (p *Path) Times() []time.Time { return p.sky.times }
