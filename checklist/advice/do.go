package advice

// Do is what is to be done: one of a closed set, in the order in which they are judged. The first that applies is
// the advice.
type Do int

// The kinds of advice.
const (
	MoveAway    Do = iota + 1 // drive the telescope off: something is in its way soon
	StopSubs                  // exposures are going on that are of no use
	Rewind                    // turn the stage to where the next run starts
	HandOver                  // go on to the next target
	FinishSub                 // let the last sub of the run end
	SayAngle                  // the stage turns, and nobody knows from where
	DoStep                    // settle a step of the checklist
	DerotatorOn               // turn the derotator on
	GuidingOn                 // start guiding
	SubsOn                    // start the subs
	UsePause                  // rewind now, while no subs are taken anyway
	Stow                      // nothing is left of the night: put it to bed
	Wait                      // nothing can or need be done
)

// String gives the kind in the words of scripts: "finish-sub".
func (d Do) String() string {
	return [...]string{"", "move-away", "stop-subs", "rewind", "hand-over", "finish-sub", "say-angle", "step", "derotator-on",
		"guiding-on", "subs-on", "use-pause", "stow", "wait"}[d]
}

// Why is the reason of an advice: one of a closed set.
type Why int

// The reasons.
const (
	Limit          Why = iota + 1 // the derotator's travel ends
	WindowCloses                  // the target can't be used any longer
	Ceiling                       // the target comes too near the mount's axis, or to what is in the way there
	TooFast                       // the field or the mount would have to turn faster than they can
	GoalReached                   // all the wanted subs are taken
	FieldTurns                    // the lights show it
	ForHandOver                   // another target's turn
	Twilight                      // it is not dark yet
	DarknessOver                  // it is not dark any more
	AngleUnknown                  // nobody knows where the stage stands
	TiltUnknown                   // only the uncertainty of the axis stands in the way
	CalibrationOld                // guiding was calibrated at another angle
	Cloud                         // the sky is covered
	NotSettled                    // a step that comes first is open
	NothingLeft                   // the night has no run left
	NothingToDo                   // all goes well
)

// String gives the reason in the words of scripts: "window-closes".
func (w Why) String() string {
	return [...]string{"", "limit", "window-closes", "ceiling", "too-fast", "goal-reached", "field-turns", "hand-over", "twilight",
		"darkness-over", "angle-unknown", "tilt-unknown", "calibration-old", "cloud", "not-settled", "nothing-left", "nothing-to-do"}[w]
}
