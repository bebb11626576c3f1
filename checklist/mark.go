package checklist

import (
	"slices"
	"time"

	"duskhand/checklist/journal"
)

// Proofs that are no kinds of events of their own. The other proofs are named like the kinds of the
// events that give them.
const (
	ProofOnAtAngle = "on-at-angle"        // the derotator was turned on and its angle is known
	ProofRunsOver  = "runs-over"          // the derotator was turned off after subs had been taken
	ProofTwoStars  = "two-sighted"        // two different stars have been centred and their readouts given
	ProofGuideOff  = "guide-check-failed" // a correction of the guiding did not move its star back
)

// Proofs returns the names of what a step can be done or reopened by, without being ticked.
func Proofs() []string {
	return slices.Concat(feedingTheCountdown(),
		[]string{KindAxisMeasured, KindSighted, ProofTwoStars, ProofGuideOff, KindFocused, KindTemperature, KindFramed}, proofsOfRows())
}

// feedingTheCountdown returns the proofs that more than the checklist goes by: what they prove must be
// said as such and not ticked.
func feedingTheCountdown() []string {
	return []string{KindTargetChosen, KindRewound, KindDerotatorOn, ProofOnAtAngle, KindDerotatorOff, ProofRunsOver,
		KindSubsStarted, KindSubsStopped}
}

// mark is one thing that the state of steps goes by: what a person said of a step (by is the event's
// kind), or what an event proves (by is the proof, step is "").
type mark struct {
	at   time.Time
	by   string
	step string
	loop int    // the run whose loop it belongs to; 0 for none
	text string // reason or note
	kept *Kept  // what stood in the step when that happened; the mark then says nothing else
}

// Loop returns the number of the run, counted from 1, to which the loop of steps belongs now. It grows
// with each rewind, with another target and with turning the derotator on again, unless no run and no
// subs have begun since it grew last. While every angle is known it is the number of the run that is
// open or comes next.
func (n Night) Loop() int { return n.loops + 1 }

// UsesSteps tells whether any step of the checklist has been said this night: who has ticked none goes by the
// derotator and the subs alone.
func (n Night) UsesSteps() bool {
	for _, m := range n.marks {
		if m.step != "" && m.kept == nil {
			return true
		}
	}
	return false
}

// prove notes that a proof happened. What happens before the loop's run has begun proves nothing of the
// loop, except that subs start: the rewind before the first run is not yet the one that ends it.
func (n *Night) prove(by string, at time.Time) {
	m := mark{at: at, by: by, loop: n.Loop()}
	if !n.used {
		m.loop = 0
	}
	n.marks = append(n.marks, m)
}

// proveByKind notes what an event proves just by being there.
func (n *Night) proveByKind(e journal.Event) {
	switch e.Kind {
	case KindAxisMeasured, KindSighted, KindFocused, KindTemperature, KindFramed:
		n.prove(e.Kind, e.At)
	}
	if e.Kind == KindSighted && len(n.Centred) == 2 {
		n.prove(ProofTwoStars, e.At)
	}
}

// reopenLoop makes the loop's steps those of the next run, if this one has begun.
func (n *Night) reopenLoop() {
	if n.used {
		n.loops, n.used = n.loops+1, false
	}
}

func (n *Night) stepDone(b StepDoneBody, at time.Time) {
	n.guidingByStep(b.Step, at)
	n.marks = append(n.marks, mark{at: at, by: KindStepDone, step: b.Step, loop: b.Loop})
	if b.Step == stepGuide { // as the event that says the same
		n.marks = append(n.marks, mark{at: at, by: KindGuidingOn, loop: b.Loop})
	}
}

func (n *Night) stepSkipped(b StepSkippedBody, at time.Time) {
	n.marks = append(n.marks, mark{at: at, by: KindStepSkipped, step: b.Step, loop: b.Loop, text: b.Reason})
}

func (n *Night) stepFailed(b StepFailedBody, at time.Time) {
	if b.Step == stepSeeCorrection {
		n.guideChecked(GuideCheckBody{Back: false}, at)
	}
	n.marks = append(n.marks, mark{at: at, by: KindStepFailed, step: b.Step, loop: b.Loop, text: b.Note})
	if b.Step == stepGuide && n.Guiding.On { // it held its star, and does no longer
		n.guidingLost(struct{}{}, at)
		n.marks = append(n.marks, mark{at: at, by: KindGuidingLost, loop: b.Loop})
	}
}
