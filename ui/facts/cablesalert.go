package facts

import (
	"fmt"

	"duskhand/checklist/advice"
	"duskhand/plan/cables"
	"duskhand/sky"
	"duskhand/sky/words"
)

// CablesEnd is the alert of the mount's cables coming to the end of their reach.
const CablesEnd AlertKind = "cables"

// wayRound names a turn in azimuth, seen from above.
func wayRound(clockwise bool) string {
	if clockwise {
		return "clockwise"
	}
	return "anticlockwise"
}

// cables warns before the run that goes on, or the next hand-over, would wind the cables beyond their reach.
func (r Run) cables() Alert {
	a := Alert{Kind: CablesEnd, Words: "before the mount's cables would come to their end"}
	ahead, ok := r.CablesAhead()
	switch {
	case !ok:
		return a
	case ahead.Passes.OK && !ahead.Doubt && !r.Now.Before(ahead.Passes.At):
		at := words.Minute(ahead.Passes.At, r.Kit.Site.Zone)
		a.Level, a.Words, a.Brief = advice.Calling, "the mount's cables are past their end since "+at+": see that nothing pulls, and unwind them", "cables past their end since "+at
		return a
	case ahead.Passes.OK && !ahead.Doubt:
		at := words.Minute(ahead.Passes.At, r.Kit.Site.Zone)
		a.Words, a.Brief = "the mount's cables come to their end at "+at+", before the run's: unwind them in the next pause", "cables end "+at
	case ahead.Doubt:
		a.Words, a.Brief = "which way round the mount has gone is not known: look at its cables", "cables: way round unknown"
	case ahead.NextDoubt:
		a.Words, a.Brief = "which way round the mount will go to "+ahead.Target+" is not known: watch its cables", "cables: way round unknown"
	case ahead.Next != nil && !ahead.Next.Sure:
		return a
	case ahead.Next != nil && ahead.Next.Passes.OK:
		a.Words, a.Brief = nextWay(ahead.Target, *ahead.Next), "cables: mind the way round"
	default:
		return a
	}
	a.Level = advice.Warning
	return a
}

// nextWay says how to go to the next target when the shortest way winds the cables too far.
func nextWay(target string, t cables.Turn) string {
	if t.LongWay {
		return "to " + target + " go the long way round, " + wayRound(!t.Clockwise()) + ": by the shortest the mount's cables come to their end"
	}
	return "unwind the mount's cables before going to " + target + ": either way round they come to their end"
}

// GoWords says how to go to the next target of a hand-over, with the way round where the kit bounds the mount's cables
// and the way is known.
func (r Run) GoWords(target string) string {
	ahead, ok := r.CablesAhead()
	if !ok || ahead.Next == nil || ahead.Target != target || !ahead.Next.Sure {
		return "Go to " + target
	}
	t := *ahead.Next
	switch {
	case !t.Passes.OK:
		return "Go " + wayRound(t.Clockwise()) + " to " + target
	case t.LongWay:
		return "Go the long way round, " + wayRound(!t.Clockwise()) + ", to " + target
	}
	return "Unwind the mount's cables, go to " + target
}

// UnwindWords says before the mount is parked how far its cables are wound, and which way back; "" where they are not
// by half a turn, so that the shortest way to anywhere leaves them as good as straight.
func (r Run) UnwindWords() string {
	w, ok := r.Winding()
	switch {
	case !ok:
		return ""
	case !w.Sure:
		return "Look at the mount's cables before you park it: how far they are wound is not known."
	case w.Off.Abs() < sky.Turn/2:
		return ""
	}
	return fmt.Sprintf("The mount's cables are wound %s turns %s: turn it back %s before you park it.",
		words.Number(float64(w.Off.Abs()/sky.Turn), 1), wayRound(w.Off > 0), wayRound(w.Off < 0))
}

// woundWords is what the checklist's sentence of unwinding needs.
func (r Run) woundWords(known map[string]string) {
	w, ok := r.Winding()
	if ok && w.Sure && w.Off.Abs() >= sky.Turn/2 {
		known["wound"] = fmt.Sprintf("%s turns %s: turn it back %s", words.Number(float64(w.Off.Abs()/sky.Turn), 1), wayRound(w.Off > 0), wayRound(w.Off < 0))
	}
}
