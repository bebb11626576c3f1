package plan

import (
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// programme finds the best schedule on a grid of instants: at each, and for each angle that a run may start from, the
// most usable time that is left, by what is left after each end that the run may have. The best way on from an instant
// does not depend on the way there, only on where the stage stands and when it is free.
//
// Source: the principle of optimality, Bellman 1957, Dynamic Programming, ch. III.
type programme struct {
	*grid
	speed       float64 // of a rewind, radians a second
	ahead, tail float64 // s: what a rewind takes beside its turning, before it and, while the stage tracks, after it
	price       float64 // s: what it must gain
	least       float64 // s: the shortest run worth the name
	rule        AngleRule
	anywhere    bool
	columns     int

	angle [][]float64 // by instant and column; NaN where no run starts
	value [][]float64 // s of use, of a run that starts there after a rewind and all after it; 0 if none
	wait  [][]float64 // the best value of any later start in the column, or this
	onto  [][]float64 // anywhere only: what is left for a stage that is free at an instant, by where it stands
	opens []float64   // seconds of windows before each instant
	begun []int
	reach reach
}

// The start angles that are tried for a stage that stops anywhere, beside the one that lasts longest, and the angles
// where it may stand: between them straight lines serve.
const (
	startAngles = 13
	standAngles = 33
)

// same is by how much two values may differ that are equal but for rounding.
const same = 1e-6

// tie is what a rewind must gain at least, in seconds, so that of equals the schedule with fewer is taken.
const tie = 0.05

func newProgramme(g *grid) *programme {
	k := g.course.Kit
	p := &programme{grid: g, rule: g.course.Rule, anywhere: k.Derotator.StopsAnywhere}
	p.speed = float64(k.Derotator.RewindSpeed)
	p.ahead, p.tail, p.price = k.Subs.BeforeTurn().Seconds(), k.Subs.AfterTurn().Seconds(), k.Subs.WorthARewind.Seconds()+tie
	p.least = (g.course.leastRun() - k.Subs.Settle - k.Derotator.Margin).Seconds()
	p.columns = 2
	if p.anywhere {
		p.columns = startAngles + 1
	}
	if p.ruled() {
		p.columns += int(k.Derotator.Travel()/p.rule.Alike) + 2
	}
	return p
}

func (p *programme) ruled() bool {
	return p.rule.Keep == kit.PreferAngle || p.rule.Keep == kit.AlwaysKeep
}

// solve fills in the values, from the last instant back.
func (p *programme) solve() {
	n := len(p.at)
	p.angle, p.value, p.wait = table(n, p.columns), table(n, p.columns), table(n+1, p.columns)
	if p.anywhere {
		p.onto = table(n+1, standAngles)
	}
	p.opens, p.begun = make([]float64, n), make([]int, n)
	for i, s := range p.at {
		p.opens[i], p.begun[i] = p.open(s)
	}
	for i := n - 1; i >= 0; i-- {
		if w, ok := p.startIn(p.at[i], p.tail); ok {
			p.reachOf(p.at[i], p.at[i], p.tail, p.chi[i], &p.offsets[i], w, &p.reach)
			p.startsAt(p.at[i], &p.reach, p.angle[i])
			for a, angle := range p.angle[i] {
				if !math.IsNaN(angle) {
					p.value[i][a], _ = p.bestEnd(&p.reach, angle)
				}
			}
		} else {
			nothing(p.angle[i])
		}
		for a := range p.wait[i] {
			p.wait[i][a] = math.Max(p.wait[i+1][a], p.value[i][a])
		}
		for m := range standAngles {
			if p.anywhere {
				p.onto[i][m] = p.after(p.at[i], p.stand(m))
			}
		}
	}
}

// table returns rows of a length, on one piece of memory.
func table(rows, length int) [][]float64 {
	all, t := make([]float64, rows*length), make([][]float64, rows)
	for i := range t {
		t[i] = all[i*length : (i+1)*length]
	}
	return t
}

func nothing(angles []float64) {
	for a := range angles {
		angles[a] = math.NaN()
	}
}

// stand returns the m-th of the angles at which a stage may stand.
func (p *programme) stand(m int) float64 {
	d := p.course.Kit.Derotator
	return float64(d.Min) + float64(d.Travel())*float64(m)/(standAngles-1)
}

// startsAt returns the angles from which a run may start at an instant, by column, NaN for none.
func (p *programme) startsAt(s float64, r *reach, angles []float64) {
	nothing(angles)
	d := p.course.Kit.Derotator
	free := p.columns
	if p.ruled() {
		free -= int(d.Travel()/p.rule.Alike) + 2
		found := false
		for _, reading := range p.course.startsWanted(p.time(s)) {
			column := free + int((reading-d.Min)/p.rule.Alike)
			if p.rule.Keep == kit.AlwaysKeep || r.exit(float64(reading))-s >= p.course.leastRun().Seconds() {
				angles[column], found = float64(reading), true
			}
		}
		if found || p.rule.Keep == kit.AlwaysKeep {
			return
		}
	}
	if !p.anywhere {
		angles[0], angles[1] = float64(d.Min), float64(d.Max)
		return
	}
	for a := range startAngles {
		angles[a] = float64(d.Min) + float64(d.Travel())*float64(a)/(startAngles-1)
	}
	angles[startAngles] = r.best()
}

// bestEnd returns what a run from an angle and all after it give, and when it ends for that; 0 if no sub fits it.
func (p *programme) bestEnd(r *reach, angle float64) (value, end float64) {
	last := r.end(angle)
	try := func(to, usable, stands float64) {
		if usable < p.least && !(r.settled && usable >= 0) {
			return
		}
		if total := usable + p.onward(to, stands); total > value-same { // of equals the longer run
			value, end = total, to
		}
	}
	for k, nominal := range r.nominal {
		i := r.first + k
		if p.at[i] >= last {
			break
		}
		try(p.at[i], r.usableOf(p.opens[i], p.begun[i]), angle+nominal)
	}
	if last > r.from {
		try(last, r.usable(last), angle+r.at(r.nominal, last))
	}
	return value, end
}

// onward is what is left for a stage that is free at an instant and stands at an angle: 0 at least, less the price of
// the rewind.
func (p *programme) onward(s, stands float64) float64 {
	if !p.anywhere {
		return p.after(s, stands)
	}
	i := p.grid.after(s)
	if i >= len(p.at) {
		return 0
	}
	d := p.course.Kit.Derotator
	x := (stands - float64(d.Min)) / float64(d.Travel()) * (standAngles - 1)
	m := max(0, min(standAngles-2, int(x)))
	share := math.Max(0, math.Min(1, x-float64(m)))
	here := p.onto[i][m] + share*(p.onto[i][m+1]-p.onto[i][m])
	if i == 0 || p.at[i] == s {
		return here
	}
	before := p.onto[i-1][m] + share*(p.onto[i-1][m+1]-p.onto[i-1][m])
	if before == 0 { // not filled in yet, or nothing left
		return here
	}
	return here + (before-here)*(p.at[i]-s)/(p.at[i]-p.at[i-1])
}

// after is onward, from all the starts.
func (p *programme) after(s, stands float64) float64 {
	best := 0.0
	at := p.grid.after(s + p.ahead)
	for a := range p.columns {
		angle := p.angleFrom(at, a)
		if math.IsNaN(angle) {
			continue
		}
		best = math.Max(best, p.from(s+p.ahead+p.turning(stands, angle), a)-p.price)
	}
	return best
}

// angleFrom returns the angle of a column at an instant or, where it has none, the next that it has.
func (p *programme) angleFrom(i, column int) float64 {
	for ; i < len(p.at); i++ {
		if !math.IsNaN(p.angle[i][column]) {
			return p.angle[i][column]
		}
	}
	return math.NaN()
}

func (p *programme) turning(from, to float64) float64 { return math.Abs(to-from) / p.speed }

// likeAngles is how far two angles of a column may differ for a start between them to be like both.
const likeAngles = float64(3 * sky.Degree)

// from returns the best value of a column's starts at an instant or later.
func (p *programme) from(s float64, column int) float64 {
	i := p.grid.after(s)
	if i >= len(p.at) {
		return 0
	}
	best := p.wait[i][column]
	if i == 0 || p.at[i] == s || p.value[i-1][column] == 0 || p.value[i][column] == 0 ||
		math.Abs(p.angle[i][column]-p.angle[i-1][column]) > likeAngles {
		return best
	}
	share := (p.at[i] - s) / (p.at[i] - p.at[i-1])
	return math.Max(best, p.value[i][column]+share*(p.value[i-1][column]-p.value[i][column]))
}
