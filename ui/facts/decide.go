package facts

import (
	"context"
	"slices"
	"strings"
	"time"

	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky/catalog"
)

// Picked says which targets a ranking lists. The zero Picked lists all.
type Picked struct {
	Type          string // one of catalog.Types
	Constellation string // the IAU's abbreviation
	NamePart      string
	OneRun        bool          // only what the derotator lasts through
	Fits          bool          // only what fits the chip with room
	AtLeast       time.Duration // that a target must be up
}

// Filter returns what the ranking leaves out.
func (p Picked) Filter() choose.Filter {
	f := choose.Filter{OneRun: p.OneRun, NamePart: p.NamePart, AtLeast: p.AtLeast}
	if p.Type != "" {
		f.Types = []string{p.Type}
	}
	if p.Constellation != "" {
		f.Constellations = []string{p.Constellation}
	}
	if p.Fits {
		f.Fits = []choose.Fit{choose.Fits}
	}
	return f
}

// ConstellationNamed returns the IAU's abbreviation of a constellation by that or by its Latin name, in capitals or
// not; "" if it is neither, or no object of the catalogue lies there.
func ConstellationNamed(text string) string {
	for _, o := range catalog.DeepSky() {
		if strings.EqualFold(o.Constellation, text) || strings.EqualFold(catalog.ConstellationName(o.Constellation), text) {
			return o.Constellation
		}
	}
	return ""
}

// RankingQuestion is all that a ranking of the night's targets depends on, the kit and the record of earlier
// nights aside: two that are equal have the same answer.
type RankingQuestion struct {
	Date   plan.Date
	Axis   kit.Axis
	Spread plan.Spread // zero if no fit gave one
	From   time.Time   // nothing before it counts; zero before the night is dark
	Picked Picked
}

// RankingStep is how long a ranking made during the night stands. Shorter, and targets would change places
// while one reads; longer, and it would promise time that has passed.
const RankingStep = 5 * time.Minute

// RankingFor returns the question to ask at an instant.
func (r Run) RankingFor(picked Picked) RankingQuestion {
	q := RankingQuestion{Date: r.Night.Date, Axis: r.Axis, Picked: picked}
	if r.Spread != nil {
		q.Spread = *r.Spread
	}
	if len(r.Night.Dark) > 0 && r.Now.After(r.Night.Dark[0].From) {
		q.From = r.Now.Truncate(RankingStep)
	}
	return q
}

// Ranking is the night's targets, the best first.
type Ranking struct {
	Question RankingQuestion
	Choices  []choose.Choice
	Unread   string // why earlier nights are not counted with, if they could not be read
}

// Rank answers a question for some targets: of the kit's own in some tens of milliseconds. The night is that of its
// date; goals may be nil.
//
// Error: that of ctx, when it ends first.
func Rank(ctx context.Context, night *plan.Night, q RankingQuestion, targets []kit.Target, goals map[string]choose.Goal, progress func(done, total int)) (Ranking, error) {
	var spread *plan.Spread
	if q.Spread != (plan.Spread{}) {
		spread = &q.Spread
	}
	wish := choose.Wish{Filter: q.Picked.Filter(), From: q.From, Goals: goals}
	choices, err := choose.NewNight(night, q.Axis, spread).Rank(ctx, targets, wish, progress)
	return Ranking{Question: q, Choices: choices}, err
}

// Place returns where a target stands in the ranking, from 0; −1 if it is not in it.
func (r Ranking) Place(target string) int {
	return slices.IndexFunc(r.Choices, func(c choose.Choice) bool { return c.Target.Name == target })
}

// Worth says whether a target is worth setting up for.
type Worth int

// The three.
const (
	NotWorth Worth = iota
	HardlyWorth
	WorthIt
)

// Below the first a night is not worth setting up for, below the second hardly, in time at the zenith under a
// dark sky. Our choice: to carry out, align, focus and pack takes about an hour.
const (
	leastWorth = 30 * time.Minute
	goodWorth  = time.Hour
)

// Verdict is the answer to "is it worth it?", with what speaks against it the most.
type Verdict struct {
	Choice  choose.Choice
	Worth   Worth
	Against choose.Factor // the smallest share
	Turn    *advice.Turn  // what it gets of a divided night; nil if it has the night to itself
}

// Working is how long subs can be taken: in the target's turns if the night is divided.
func (v Verdict) Working() time.Duration {
	if v.Turn != nil {
		return v.Turn.Working
	}
	return v.Choice.Working
}

// VerdictOf judges a choice, and says what the division leaves it if the night is divided.
func (r Run) VerdictOf(c choose.Choice) Verdict {
	v := VerdictOf(c)
	if turn, ok := r.TurnOf(c.Target.Name); ok {
		v.Turn = &turn
	}
	return v
}

// VerdictOf judges a choice.
func VerdictOf(c choose.Choice) Verdict {
	v := Verdict{Choice: c, Worth: NotWorth}
	switch {
	case c.Worth >= goodWorth:
		v.Worth = WorthIt
	case c.Worth >= leastWorth:
		v.Worth = HardlyWorth
	}
	for i, f := range c.Factors {
		if i == 0 || f.Share < v.Against.Share {
			v.Against = f
		}
	}
	if c.Up == 0 { // then nothing else was judged
		v.Against = c.Factors[choose.ByTurning]
	}
	return v
}
