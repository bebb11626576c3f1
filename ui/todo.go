package ui

import (
	"fmt"

	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// toDo says what to do next, or that there is nothing to do and when to look again.
func (m Model) toDo() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	to := degreesText(r.Offer.To)
	switch r.Stage {
	case facts.NotUsable:
		return []string{"Choose another target, or sleep."}
	case facts.Over:
		return []string{"Derotator off, flats and darks, then pack: fingers and cables first, the drive home rested.", "Derotator off, flats, darks, pack."}
	case facts.Adrift:
		return []string{"Read the angle that the derotator shows and say it: key a.", "Read the derotator's angle: key a."}
	case facts.Off:
		return m.toTurnOn()
	case facts.Waiting:
		return []string{fmt.Sprintf("Nothing to do until %s.", hourMinute(r.Window.From, zone))}
	case facts.PastLimit, facts.RewindDue:
		if m.log.Subs != nil {
			return []string{"Stop the subs, stop guiding, then say so.", "Stop subs and guiding."}
		}
		if !r.Offer.Whether {
			return []string{"Nothing is left of the window: derotator off."}
		}
		return []string{"Rewind to " + to + ": cables, hair and fingers clear. When it stands there, start guiding and say so.",
			"Rewind to " + to + ", cables clear; then say so.", "Rewind to " + to + "."}
	case facts.LastSub:
		return []string{fmt.Sprintf("The last sub is being taken. Then: stop guiding, rewind to %s, start guiding, start subs.", to),
			fmt.Sprintf("Let it finish. Then rewind to %s.", to)}
	}
	return m.whileTracking(to)
}

func (m Model) toTurnOn() []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	if !r.Offer.Whether {
		return []string{"Nothing is left of the window tonight."}
	}
	to := degreesText(r.Offer.To)
	if m.log.Parked != nil {
		to = degreesText(*m.log.Parked)
	}
	if m.now.Before(r.Window.From) {
		return []string{fmt.Sprintf("Have the derotator at %s by %s, cables slack for the whole travel.", to, hourMinute(r.Window.From, zone)),
			fmt.Sprintf("At %s by %s.", to, hourMinute(r.Window.From, zone))}
	}
	return []string{"Derotator to " + to + ", cables clear; turn it on, see that it turns, then say so.", "Turn it on at " + to + ", say so."}
}

func (m Model) whileTracking(to string) []string {
	r, zone := m.run, m.config.Kit.Site.Zone
	switch {
	case m.log.Subs == nil:
		return []string{"See that the derotator turns and guiding holds, start the subs, then say so.", "Start the subs, say so."}
	case r.Alarm() == facts.Warning:
		return []string{fmt.Sprintf("Soon: after sub %d stop guiding and rewind to %s.", r.LastNo, to), "Soon: rewind to " + to + "."}
	case r.Progress.Waiting && r.Progress.After.Done():
		return []string{"All wanted subs are taken: stop, or go on to the next target.", "All subs are taken."}
	case !m.now.Before(r.Until):
		return []string{"The window has closed: stop the subs.", "Stop the subs."}
	}
	again := r.LookAgain()
	return []string{fmt.Sprintf("Nothing to do. Look again at %s.", hourMinute(again, zone)), "Nothing to do until " + hourMinute(again, zone)}
}

// urgency is the role of the line that says what to do.
func (m Model) urgency() theme.Role {
	switch m.run.Stage {
	case facts.RewindDue, facts.PastLimit, facts.LastSub, facts.Adrift:
		return theme.Call
	case facts.Off:
		return theme.Caution
	}
	if m.run.Alarm() == facts.Warning || m.run.Stage == facts.Tracking && m.log.Subs == nil {
		return theme.Caution
	}
	return theme.Text
}
