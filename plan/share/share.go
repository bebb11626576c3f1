// Package share divides one night among several targets: in which order, with which hand-over times, so that
// each gets its share of the exposure, in one stretch unless two are allowed, with few rewinds and nothing in
// the keyhole.
//
// What is sought: the largest sum over the targets of weight · log(time of subs), less some minutes for each
// rewind; height counts a little, so that of orders nearly alike the one is taken in which each target has its
// turn while it is high. Without any hindrance that gives each its weight's share within some hundredths;
// where one can't have its share, because it sets or is complete, the others divide what it leaves in
// proportion (proportional fairness, Kelly 1997, European Transactions on Telecommunications 8, 33).
//
// All orders are tried; for each the hand-over times are the best on a grid of five minutes (dynamic
// programming over the times of package scan). The order found is then planned exactly, as
// plan.Course.Schedule plans one target, with hand-overs moved up to the end of the last sub before.
package share

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Most is how many targets a night is divided among at most: every order of them is tried.
const Most = 6

// Wish is one target, how much it is to get, and where its subs stand.
type Wish struct {
	Target kit.Target
	Weight float64 // against those of the others, above 0
	Subs   plan.Sequence
}

// Left returns the exposure that a sequence still wants.
func Left(subs kit.Subs, s plan.Sequence) (left time.Duration) {
	for i, taken := range s.Taken() {
		left += time.Duration(max(0, subs.Filters[i].Count-taken)) * subs.Filters[i].Exposure
	}
	return left
}

// Break is what a hand-over takes, from the last sub of one target to tracking on the next. The derotator
// turns to its new start meanwhile.
type Break struct {
	Frame time.Duration // slew, centre and frame
	Stars time.Duration // a check on an alignment star
	Focus time.Duration
}

// UsualBreak returns the defaults, common practice with a camera that solves nothing by itself.
func UsualBreak() Break {
	return Break{Frame: 5 * time.Minute, Stars: 3 * time.Minute, Focus: 4 * time.Minute}
}

// Length returns how long the break is.
func (b Break) Length() time.Duration { return b.Frame + b.Stars + b.Focus }

// Rules are what a division keeps to. Care is what a rewind counts for beside the time that it costs, because
// somebody must get up for it.
type Rules struct {
	From     time.Time  // nothing is planned before it; the beginning of the night if zero
	At       *sky.Angle // where the derotator stands then, nil if nobody knows
	Going    string     // the target being taken then: another that is the first needs a break too; "" if none is
	Break    Break
	Care     time.Duration
	MaySplit bool // one target may have two stretches, if that pays: up to four targets
}

// UsualRules returns the usual break, five minutes of care for a rewind, and one stretch for each.
func UsualRules() Rules { return Rules{Break: UsualBreak(), Care: 5 * time.Minute} }

// pauseBefore returns the break before a target's stretch, which is none for the first of the night.
func (r Rules) pauseBefore(target string, isFirst bool) time.Duration {
	if isFirst && (r.Going == "" || r.Going == target) {
		return 0
	}
	return r.Break.Length()
}

// check refuses what can't be divided.
func check(wishes []Wish) error {
	if len(wishes) == 0 || len(wishes) > Most {
		return fmt.Errorf("a night is divided among 1 to %d targets, not %d; name fewer", Most, len(wishes))
	}
	seen := map[string]bool{}
	for _, w := range wishes {
		if w.Weight <= 0 {
			return fmt.Errorf("%s has the weight %g; give one above 0, or leave the target out", w.Target.Name, w.Weight)
		}
		if seen[w.Target.Name] {
			return fmt.Errorf("%s is named twice; name each target once, with the weight of both", w.Target.Name)
		}
		seen[w.Target.Name] = true
	}
	return nil
}
