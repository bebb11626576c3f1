package advice

import (
	"sync"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// kept is what was planned for the night's courses, as long as it can't have changed: it goes from one derivation of
// the facts to the next while night, axis and spread are the same, and is dropped with them.
type kept struct {
	mutex     sync.Mutex
	schedules []planned // the latest last
	opened    map[*plan.Course][]plan.Window

	asked leadAsked // for how long before it a run's stage is turned on, asked last
	taken plan.Sequence
	leads time.Duration
}

// leadAsked is a run that begins, in nanoseconds, with the stage at an angle.
type leadAsked struct {
	course *plan.Course
	begins int64
	stands sky.Angle
}

// lead returns what find found for the same run before, or has it found.
func (k *kept) lead(asked leadAsked, taken plan.Sequence, find func() time.Duration) time.Duration {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	if k.asked != asked || !k.taken.Same(taken) {
		k.asked, k.taken, k.leads = asked, taken, find()
	}
	return k.leads
}

// planned is a schedule, and what it was planned for.
type planned struct {
	course   *plan.Course
	from     plan.Start
	sequence plan.Sequence
	schedule plan.Schedule
}

// few is how many schedules are kept: of the targets that a night goes back and forth between, before and after what is
// said next.
const few = 6

// schedule returns the course's schedule from a state of the night on.
func (k *kept) schedule(course *plan.Course, from plan.Start, sequence plan.Sequence) plan.Schedule {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	for _, p := range k.schedules {
		if p.course == course && p.sequence.Same(sequence) && p.holds(from) {
			return p.schedule.Since(from.At)
		}
	}
	p := planned{course, from, sequence, course.Schedule(from, sequence)}
	k.add(p)
	return p.schedule
}

// keep keeps a schedule that was found elsewhere.
func (k *kept) keep(p planned) {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	k.add(p)
}

func (k *kept) add(p planned) {
	k.schedules = append(k.schedules[max(0, len(k.schedules)+1-few):], p)
}

// holds tells whether a schedule is the best from another state too: the same, or a later one in which nothing has
// changed and nothing was to be done yet.
func (p planned) holds(from plan.Start) bool {
	if p.from.Between != from.Between || p.from.Tracking != nil || from.Tracking != nil {
		return false
	}
	a, b := p.from.Stage, from.Stage
	if (a == nil) != (b == nil) || a != nil && *a != *b || from.At.Before(p.from.At) {
		return false
	}
	return from.At.Equal(p.from.At) || !from.At.After(p.schedule.Begins())
}

// windows returns the course's windows.
func (k *kept) windows(course *plan.Course) []plan.Window {
	k.mutex.Lock()
	defer k.mutex.Unlock()
	windows, known := k.opened[course]
	if !known {
		if k.opened == nil {
			k.opened = map[*plan.Course][]plan.Window{}
		}
		windows = course.Windows()
		k.opened[course] = windows
	}
	return windows
}
