package say

import (
	"fmt"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
)

// ToDo says what to do next, or that there is nothing to do and when to look again; longest first.
func (v Voice) ToDo() []string {
	a := v.Advice
	if words, ok := v.stepWords(); ok {
		return words
	}
	switch a.Do {
	case advice.MoveAway:
		return []string{"Stop subs and guiding, and drive the telescope off.", "Drive the telescope off."}
	case advice.StopSubs:
		return v.toStop()
	case advice.Rewind:
		return v.toRewind()
	case advice.HandOver:
		return v.toHandOver()
	case advice.FinishSub:
		return v.afterLastSub()
	case advice.SayAngle:
		if v.Run.Behind > 0 {
			return BehindRemedy()
		}
		read := v.Key("read")
		return []string{"Read the angle that the derotator shows and say it: key " + read + ".", "Read the derotator's angle: key " + read + "."}
	case advice.DerotatorOn:
		to := words.Signed(*a.Angle)
		return []string{"Derotator to " + to + ", cables clear; turn it on, see that it turns, then say so.", "Turn it on at " + to + ", say so."}
	case advice.GuidingOn:
		return []string{"The guide star is lost: find one, start guiding, see that a correction moves it back, then say so.", "The guide star is lost: guide again."}
	case advice.SubsOn:
		if v.Run.Log.Guiding.On { // its step has had it seen
			return []string{"Start the subs, then say so.", "Start the subs, say so."}
		}
		return []string{"See that the derotator turns and that a correction moves the guide star back, else calibrate again; " +
			"start the subs, then say so.", "See the derotator turn and a correction move the star back; start the subs.",
			"Start the subs, say so."}
	case advice.UsePause:
		to := words.Signed(*a.Angle)
		if v.saysGuidingOff() {
			return []string{"Use the pause: stop guiding and say so; then rewind to " + to + ".", "Stop guiding; then rewind to " + to + "."}
		}
		return []string{"Use the pause: rewind to " + to + ", then say so.", "Rewind to " + to + " now."}
	case advice.Stow:
		return v.toStow()
	case advice.DoStep:
		if a.Why == advice.CalibrationOld { // the operator's own list has no step that says it
			return []string{"The guiding's calibration does not hold any more: calibrate again, then say so.", "Calibrate the guiding again."}
		}
	}
	return v.toWait()
}

// stepWords is the sentence of the step that the advice is about.
func (v Voice) stepWords() ([]string, bool) {
	for _, s := range v.Steps {
		if s.ID == v.Advice.Step && v.Advice.Step != "" {
			words := []string{s.Sentence(v.Facts)}
			if s.Plain != "" && s.Plain != words[0] {
				words = append(words, s.Plain)
			}
			return words, true
		}
	}
	return nil, false
}

// AsksGuidingOff tells that the sentence which asks for the subs to be stopped asks for the guiding to be stopped as well.
func (v Voice) AsksGuidingOff() bool {
	if v.Advice.Do != advice.StopSubs {
		return true
	}
	switch v.Advice.Why {
	case advice.FieldTurns, advice.Twilight:
		return false
	case advice.GoalReached:
		_, _, one := v.Run.Call.FilterTaken()
		return !one
	case advice.Limit:
		return true
	}
	return !v.Run.Unusable()
}

func (v Voice) toStop() []string {
	r := v.Run
	switch v.Advice.Why {
	case advice.Limit:
		return []string{"Stop the subs, stop guiding, then say so.", "Stop subs and guiding."}
	case advice.FieldTurns:
		turning, _ := r.Turning()
		return Turning(turning)
	case advice.GoalReached:
		if taken, next, one := r.Call.FilterTaken(); one {
			return []string{"All wanted subs of " + taken + " are taken: stop them, then go on with " + next + ".", "All of " + taken + " are taken: stop, then " + next + "."}
		}
		if other, any := r.Elsewhere(); any {
			return []string{"All wanted subs are taken: stop subs and guiding; " + v.other(other) + ".", "All taken: stop subs and guiding."}
		}
		return []string{"All wanted subs are taken: stop subs and guiding.", "All taken: stop subs and guiding."}
	case advice.Twilight:
		return []string{"Stop the subs until it is dark; those taken now are counted apart.", "Stop: it is not dark yet."}
	}
	if r.Unusable() {
		return []string{fmt.Sprintf("Stop the subs: %s can't be used until %s.", r.Target.Name, v.from(r.Call.Window.From)), "Stop the subs."}
	}
	return []string{"The window has closed (" + r.Call.Window.ClosesBefore.Text() + "): stop the subs and guiding, then say so.", "The window has closed: stop subs and guiding."}
}

// other names a target that the rest of the night serves, with how long.
func (v Voice) other(e advice.Elsewhere) string {
	return fmt.Sprintf("%s gives %s until %s", e.Target.Name, words.Lasting(e.Exposed), v.at(e.Until))
}

func (v Voice) toRewind() []string {
	to := words.Signed(*v.Advice.Angle)
	switch {
	case v.Run.Log.Subs != nil:
		return []string{"Stop the subs, stop guiding, then say so.", "Stop subs and guiding."}
	case v.saysGuidingOff():
		return []string{"Stop guiding and say so; then rewind to " + to + ".", "Stop guiding; then rewind."}
	case v.Advice.By != nil && v.Run.Now.Before(v.Run.Window.From):
		by := v.at(*v.Advice.By)
		return []string{fmt.Sprintf("Have the derotator at %s by %s, cables slack for the whole travel; then say so.", to, by), fmt.Sprintf("At %s by %s, say so.", to, by)}
	}
	return []string{"Rewind to " + to + ": cables, hair and fingers clear. When it stands there, say so.", "Rewind to " + to + "; say so."}
}

// saysGuidingOff tells that the one key says that guiding is off, before the stage is turned.
func (v Voice) saysGuidingOff() bool {
	_, off := v.Advice.Offer.(checklist.GuidingOff)
	return off
}

func (v Voice) toHandOver() []string {
	name := v.Advice.Target
	if v.Run.Log.Subs != nil {
		return []string{"Stop the subs, stop guiding, then say so; " + name + " is next.", "Stop subs and guiding."}
	}
	if v.saysGuidingOff() {
		return []string{"Stop guiding and say so; then go to " + name + ".", "Stop guiding; then " + name + "."}
	}
	start := ""
	if v.Advice.Angle != nil {
		start = ", derotator to " + words.Signed(*v.Advice.Angle)
	}
	return []string{fmt.Sprintf("%s, centre a star near it, focus, frame%s, guide and see it correct; first say the target.", goTo(v.Run, name), start), goTo(v.Run, name) + "; say so.", "Go to " + name + "; say so."}
}

func (v Voice) afterLastSub() []string {
	r := v.Run
	if !r.Call.Rewind() || !r.Next().OK {
		return []string{"The last sub is being taken. Then: stop the subs, stop guiding.", "Let it finish. Then stop."}
	}
	to := words.Signed(r.Next().To)
	return []string{fmt.Sprintf("The last sub is being taken. Then: stop guiding, rewind to %s, start guiding and see it correct, start subs.", to), fmt.Sprintf("Let it finish. Then rewind to %s.", to)}
}

func (v Voice) toStow() []string {
	switch {
	case len(v.Run.Windows) == 0:
		return []string{"Choose another target, or sleep."}
	case v.Advice.Offer == nil && v.Run.Log.DerotatorSince.IsZero():
		return []string{"Nothing is left of the night for a run."}
	case v.Advice.Offer == nil:
		return []string{"All is stowed. The drive home rested.", "All is stowed."}
	case v.Advice.Why == advice.GoalReached:
		return []string{"All wanted subs of " + v.Run.Target.Name + " are taken: on to another target (" + v.Key("target") + "), or derotator off.",
			"All wanted subs are taken: another target (" + v.Key("target") + "), or derotator off.", "Another target, or derotator off."}
	}
	if unwind := Unwind(v.Run); unwind != "" {
		return []string{"Derotator off, flats and darks, then pack. " + unwind, "Derotator off, flats, darks; unwind the cables, pack."}
	}
	return []string{"Derotator off, flats and darks, then pack: fingers and cables first, the drive home rested.", "Derotator off, flats, darks, pack."}
}

// toWait says until when nothing need be done, what is wrong meanwhile, and what comes soon.
func (v Voice) toWait() []string {
	r, a := v.Run, v.Advice
	if r.Log.Subs == nil {
		return v.toWaitForStart()
	}
	if since, ok := r.SubsStopped(); ok {
		at := v.at(since)
		return []string{"No new sub since " + at + ": has the sequence stopped? Look at the camera program.", "No new sub since " + at + ".", "no new sub"}
	}
	if len(v.Alerts) > 0 && v.Alerts[0].Level == advice.Calling {
		return AlertWords(v.Alerts[0])
	}
	if a.Level == advice.Warning {
		return v.soon()
	}
	if len(v.Alerts) > 0 {
		return AlertWords(v.Alerts[0])
	}
	if a.By == nil {
		return []string{"Nothing to do yet. Stay near.", "Stay near."}
	}
	at, ok := v.lookAgain(v.Run.FirstOf(*a.By))
	if !ok {
		return []string{"Nothing to do yet. Stay near.", "Stay near."}
	}
	return []string{"Nothing to do. Look again at " + at + ".", "Nothing to do until " + at, "look at " + at}
}

func (v Voice) soon() []string {
	r := v.Run
	if r.Call.For == plan.ForLimit && r.Next().OK && !r.Next().Later {
		to := words.Signed(r.Next().To)
		return []string{fmt.Sprintf("Soon: after sub %d stop guiding and rewind to %s.", r.LastNo(), to), "Soon: rewind to " + to + "."}
	}
	return []string{fmt.Sprintf("Soon: stop after sub %d.", r.LastNo()), "Soon: stop."}
}

func (v Voice) toWaitForStart() []string {
	if v.Advice.Why == advice.Cloud {
		return []string{"Cloud: nothing to do until it is clear; then say so.", "Cloud: wait."}
	}
	if v.Advice.From == nil {
		return []string{"Nothing to do yet. Stay near.", "Stay near."}
	}
	at := v.from(*v.Advice.From)
	return []string{"Nothing to do until " + at + " (" + v.waitsFor() + ").", "Nothing to do until " + at, "wait until " + at}
}

func (v Voice) waitsFor() string {
	switch v.Advice.Why {
	case advice.Twilight:
		return "twilight"
	case advice.Ceiling:
		return "keyhole"
	case advice.TooFast:
		return "the field turns too fast"
	case advice.ForHandOver:
		return "the target's turn"
	case advice.Cloud:
		return "cloud"
	case advice.TiltUnknown:
		return "the axis is not known well enough"
	case advice.NothingToDo:
		return "a later start is better"
	}
	return "the target can't be used yet"
}

// lookAgain is when the operator should next look before something is to be done: the kit's warning time ahead, to
// the minute before; ok is false when that is now.
func (v Voice) lookAgain(by time.Time) (at string, ok bool) {
	look := by.Add(-v.Run.Kit.Alarm.WarnBefore).Truncate(time.Minute)
	return v.at(look), look.After(v.Run.Now)
}

// OfferWords names what the one key says, for the footer; "" when there is nothing.
func (v Voice) OfferWords() string { return ActionWords(v.Advice.Offer) }

func angleText(a *sky.Angle) string {
	if a == nil {
		return ""
	}
	return words.Signed(*a)
}

// SubsStopped tells that subs are said to be taken and no new one comes, and that what to do says so.
func (v Voice) SubsStopped() bool {
	_, stopped := v.Run.SubsStopped()
	return stopped && v.Advice.Do == advice.Wait
}

// SaysAlert tells that what to do is an alert's own words, the first's.
func (v Voice) SaysAlert() bool {
	if v.Advice.Do != advice.Wait || v.Run.Log.Subs == nil || v.SubsStopped() || len(v.Alerts) == 0 {
		return false
	}
	return v.Alerts[0].Level == advice.Calling || v.Advice.Level < advice.Warning
}
