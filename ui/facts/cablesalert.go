package facts

import (
	"duskhand/checklist/advice"
	"duskhand/plan/cables"
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
	case ahead.Passes.OK:
		at := HourMinute(ahead.Passes.At, r.Kit.Site.Zone)
		a.Words, a.Brief = "the mount's cables come to their end at "+at+", before the run's: unwind them in the next pause", "cables end "+at
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
