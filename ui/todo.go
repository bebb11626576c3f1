package ui

import (
	"fmt"

	"duskhand/plan"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// toDo says what to do next, or that there is nothing to do and when to look again.
func (m Model) toDo() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	switch r.Stage {
	case facts.NotUsable:
		return []string{"Choose another target, or sleep."}
	case facts.Over:
		if turn, ok := m.nextTurn(); ok {
			return m.toNextTurn(turn)
		}
		return []string{"Derotator off, flats and darks, then pack: fingers and cables first, the drive home rested.", "Derotator off, flats, darks, pack."}
	case facts.Doubtful:
		return facts.ClockRemedy()
	case facts.Adrift:
		read := m.keys.Read.Help().Key
		return []string{"Read the angle that the derotator shows and say it: key " + read + ".", "Read the derotator's angle: key " + read + "."}
	case facts.Off:
		return m.toTurnOn()
	case facts.Waiting:
		return []string{fmt.Sprintf("Derotator off until %s: it only spends its travel now.", hourMinuteUp(r.Window.From, zone)), "Derotator off for now."}
	case facts.Closed:
		if r.Unusable() {
			return []string{fmt.Sprintf("Stop the subs: %s can't be used until %s.", m.tonight.Target.Name, hourMinuteUp(r.Call.Window.From, zone)), "Stop the subs."}
		}
		return []string{"The window has closed (" + r.Call.Window.ClosesBefore.Text() + "): stop the subs and guiding, then say so.", "The window has closed: stop the subs."}
	case facts.Complete:
		if m.log.Subs != nil {
			return []string{"All wanted subs are taken: stop them, or go on to the next target.", "All subs are taken: stop."}
		}
		return []string{"All wanted subs of " + m.tonight.Target.Name + " are taken: on to the next target (" + m.keys.Target.Help().Key + "), or derotator off.", "All wanted subs are taken."}
	case facts.PastLimit, facts.RewindDue:
		return m.toRewind()
	case facts.LastSub:
		return m.afterLastSub()
	}
	if m.run.FieldTurns() && m.log.Subs != nil {
		return m.toStopTurning()
	}
	if since, ok := m.run.SubsStopped(); ok {
		at := hourMinute(since, zone)
		return []string{"No new sub since " + at + ": has the sequence stopped? Look at the camera program.", "No new sub since " + at + ".", "no new sub"}
	}
	if stalled := m.unsaid(); len(stalled) > 0 && stalled[0].Level == facts.Calling {
		return alertWords(stalled[0])
	}
	return m.whileTracking()
}

// toStopTurning says what to do when the lights say that the field turns.
func (m Model) toStopTurning() []string {
	turning, _ := m.run.Turning()
	return turningWords(turning)
}

func (m Model) toRewind() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	to := degreesText(r.Offer.To)
	switch {
	case m.log.Subs != nil:
		return []string{"Stop the subs, stop guiding, then say so.", "Stop subs and guiding."}
	case !r.Offer.OK:
		return []string{"Nothing is left of the night for a run: derotator off."}
	case r.Offer.Later:
		at := hourMinute(r.Offer.Begins, zone)
		return []string{fmt.Sprintf("No sub fits a run just now: derotator off; from %s at %s they fit again.", to, at), fmt.Sprintf("Off; on again at %s, from %s.", at, to)}
	}
	return []string{"Rewind to " + to + ": cables, hair and fingers clear. When it stands there, start guiding and say so.",
		"Rewind to " + to + ", cables clear; then say so.", "Rewind to " + to + "."}
}

// afterLastSub says what comes when the sub that is being taken is over.
func (m Model) afterLastSub() []string {
	r := m.run
	switch {
	case r.Call.For == plan.ForGoal:
		return []string{"The last wanted sub is being taken. Let it finish, then stop.", "Let it finish, then stop."}
	case !r.Call.Rewind():
		return []string{"The last sub before the window closes. Let it finish, then stop.", "Let it finish, then stop."}
	case !r.Offer.OK || r.Offer.Later:
		return []string{"The last sub of this run. Let it finish, then stop the subs."}
	}
	to := degreesText(r.Offer.To)
	return []string{fmt.Sprintf("The last sub is being taken. Then: stop guiding, rewind to %s, start guiding and see it correct, start subs.", to),
		fmt.Sprintf("Let it finish. Then rewind to %s.", to)}
}

func (m Model) toTurnOn() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	if !r.Offer.OK {
		return []string{"Nothing is left of the night for a run."}
	}
	to := degreesText(r.Offer.To)
	if m.now.Before(r.Window.From) || r.Offer.Later {
		at := hourMinuteUp(r.Offer.Begins, zone)
		return []string{fmt.Sprintf("Have the derotator at %s by %s, cables slack for the whole travel.", to, at), fmt.Sprintf("At %s by %s.", to, at)}
	}
	if m.log.Parked != nil && !r.StandsReady() {
		return []string{"Rewind to " + to + ": cables, hair and fingers clear. When it stands there, say so.", "Rewind to " + to + "; say so."}
	}
	return []string{"Derotator to " + to + ", cables clear; turn it on, see that it turns, then say so.", "Turn it on at " + to + ", say so."}
}

func (m Model) whileTracking() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	switch {
	case m.log.Subs == nil:
		return []string{"See that the derotator turns and that a correction moves the guide star back, else calibrate again; " +
			"start the subs, then say so.", "See the derotator turn and a correction move the star back; start the subs.",
			"Start the subs, say so."}
	case r.Alarm() == facts.Warning && r.Call.Rewind() && r.Offer.OK && !r.Offer.Later:
		to := degreesText(r.Offer.To)
		return []string{fmt.Sprintf("Soon: after sub %d stop guiding and rewind to %s.", r.LastNo(), to), "Soon: rewind to " + to + "."}
	case r.Alarm() == facts.Warning:
		return []string{fmt.Sprintf("Soon: stop after sub %d.", r.LastNo()), "Soon: stop."}
	}
	if warned := m.unsaid(); len(warned) > 0 {
		return alertWords(warned[0])
	}
	at, ok := r.LookAgain()
	if !ok {
		return []string{"Nothing to do yet. Stay near.", "Stay near."}
	}
	again := hourMinute(at, zone)
	return []string{"Nothing to do. Look again at " + again + ".", "Nothing to do until " + again, "look at " + again}
}

// urgency is the role of the line that says what to do.
func (m Model) urgency() theme.Role {
	switch m.run.Stage {
	case facts.RewindDue, facts.PastLimit, facts.LastSub, facts.Adrift, facts.Closed, facts.Doubtful:
		return theme.Call
	case facts.Off, facts.Waiting, facts.Complete:
		return theme.Caution
	}
	if _, stopped := m.run.SubsStopped(); stopped || m.run.FieldTurns() && m.log.Subs != nil {
		return theme.Call
	}
	unsaid := m.unsaid()
	if len(unsaid) > 0 && unsaid[0].Level == facts.Calling {
		return theme.Call
	}
	if m.run.Alarm() == facts.Warning || m.run.Stage == facts.Tracking && m.log.Subs == nil || len(unsaid) > 0 {
		return theme.Caution
	}
	return theme.Text
}
