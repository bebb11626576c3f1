package say

import (
	"fmt"

	"duskhand/checklist/advice"
	"duskhand/plan/cables"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// wayRound names a turn in azimuth, seen from above.
func wayRound(clockwise bool) string {
	if clockwise {
		return "clockwise"
	}
	return "anticlockwise"
}

// cablesTrouble says what may become of the mount's cables, longest first.
func cablesTrouble(r facts.Run) []string {
	ahead, _ := r.CablesAhead()
	at := words.Minute(ahead.Passes.At, r.Kit.Site.Zone)
	switch ahead.Trouble(r.Now) {
	case advice.CablesPast:
		return []string{"the mount's cables are past their end since " + at + ": see that nothing pulls, and unwind them", "cables past their end since " + at}
	case advice.CablesEndInRun:
		return []string{"the mount's cables come to their end at " + at + ", before the run's: unwind them in the next pause", "cables end " + at}
	case advice.CablesDoubtful:
		return []string{"which way round the mount has gone is not known: look at its cables", "cables: way round unknown"}
	case advice.CablesNextDoubtful:
		return []string{"which way round the mount will go to " + ahead.Target + " is not known: watch its cables", "cables: way round unknown"}
	case advice.CablesEndAtHandOver:
		return []string{nextWay(ahead.Target, *ahead.Next), "cables: mind the way round"}
	}
	return nil
}

// nextWay says how to go to the next target when the shortest way winds the cables too far.
func nextWay(target string, t cables.Turn) string {
	if t.LongWay {
		return "to " + target + " go the long way round, " + wayRound(!t.Clockwise()) + ": by the shortest the mount's cables come to their end"
	}
	return "unwind the mount's cables before going to " + target + ": either way round they come to their end"
}

// goTo says how to go to the next target of a hand-over, with the way round where the kit bounds the mount's cables and
// the way is known.
func goTo(r facts.Run, target string) string {
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

// Unwind says before the mount is parked how far its cables are wound, and which way back; "" where they are not by half
// a turn, so that the shortest way to anywhere leaves them as good as straight.
func Unwind(r facts.Run) string {
	w, ok := r.Winding()
	switch {
	case !ok:
		return ""
	case !w.Sure:
		return "Look at the mount's cables before you park it: how far they are wound is not known."
	}
	if wound := wound(r); wound != "" {
		return "The mount's cables are wound " + wound + " before you park it."
	}
	return ""
}

// wound says how far the cables are wound, known to be by half a turn or more, and which way back; "" otherwise.
func wound(r facts.Run) string {
	w, ok := r.Winding()
	if !ok || !w.Sure || w.Off.Abs() < sky.Turn/2 {
		return ""
	}
	return fmt.Sprintf("%s turns %s: turn it back %s", words.Number(float64(w.Off.Abs()/sky.Turn), 1), wayRound(w.Off > 0), wayRound(w.Off < 0))
}
