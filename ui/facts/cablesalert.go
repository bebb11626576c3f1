package facts

import "duskhand/checklist/advice"

// CablesEnd is the alert of the mount's cables coming to the end of their reach.
const CablesEnd AlertKind = "cables"

// cables warns before the run that goes on, or the next hand-over, would wind the cables beyond their reach.
func (r Run) cables() Alert {
	a := Alert{Kind: CablesEnd}
	ahead, ok := r.CablesAhead()
	if !ok {
		return a
	}
	switch ahead.Trouble(r.Now) {
	case advice.CablesFine:
	case advice.CablesPast:
		a.Level = advice.Calling
	default:
		a.Level = advice.Warning
	}
	return a
}
