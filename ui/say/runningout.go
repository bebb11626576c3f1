package say

import (
	"fmt"
	"time"

	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// RunningOut says what does not last for the run that goes on and the next, longest first.
func RunningOut(r facts.Run, out facts.RunningOut) []string {
	until, clock := left(r, out.At), words.Minute(out.At, r.Kit.Site.Zone)
	switch out.Kind {
	case facts.KeyholeNear:
		brief := "the keyhole " + until + " at the earliest"
		long := brief
		if c := r.Window.Ceiling; c.At.OK && c.At.At.After(c.Early.At) {
			long += ", " + words.Minute(c.At.At, r.Kit.Site.Zone) + " for the tilt as believed"
		}
		return []string{long, brief, "keyhole " + clock}
	case facts.BatteryEnds:
		return []string{"the battery is empty " + until + ", by the kit's loads; switch something off or change it", "the battery is empty " + until, "battery " + clock}
	case facts.DiskFills:
		return []string{fmt.Sprintf("the disk is full %s: room for %d more subs; make room", until, out.Fits), "the disk is full " + until,
			fmt.Sprintf("room for %d subs", out.Fits)}
	case facts.FocusGoes:
		used := words.Percent(out.Used, 0)
		long := fmt.Sprintf("focus: %s of the tolerance used at the last reading, all of it %s as it cools: focus in the next pause", used, until)
		if out.Used >= 1 {
			long = fmt.Sprintf("focus: %s of the tolerance is used up: focus in the next pause", used)
		}
		return []string{long, fmt.Sprintf("focus: %s used, focus in the next pause", used), fmt.Sprintf("focus %s used", used)}
	}
	return nil
}

// left says how long it is until an instant: in 25 min, at 22:54; or that it is past.
func left(r facts.Run, at time.Time) string {
	clock := words.Minute(at, r.Kit.Site.Zone)
	if !r.Now.Before(at) {
		return "since " + clock
	}
	return "in " + words.Lasting(at.Sub(r.Now)) + ", at " + clock
}
