package plan

import (
	"sync"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// limitsKept are those of a course that were asked for last. One run's is asked for again with each instant at which it
// goes on, and does not change.
type limitsKept struct {
	mutex sync.Mutex
	found map[limitAsked]Limit
}

// limitAsked is all that a limit depends on beside the target's way and the axes.
type limitAsked struct {
	at, until int64 // ns
	angle     sky.Angle
	derotator kit.Derotator
}

// fewLimits is how many are kept: those of a night's runs and of the starts that are looked at on the way.
const fewLimits = 64

func (l *limitsKept) of(c *Course, anchor Anchor, until time.Time) Limit {
	asked := limitAsked{anchor.At.UnixNano(), until.UnixNano(), anchor.Angle, c.Kit.Derotator}
	l.mutex.Lock()
	defer l.mutex.Unlock()
	limit, known := l.found[asked]
	if known {
		return limit
	}
	limit = c.limit(anchor, until)
	if len(l.found) >= fewLimits || l.found == nil {
		l.found = map[limitAsked]Limit{}
	}
	l.found[asked] = limit
	return limit
}
