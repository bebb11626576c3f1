package advice

import (
	"sync"

	"duskhand/checklist"
)

// asked keeps which steps of a list a night still asks for: they follow from what was said alone, and every second asks.
type asked struct {
	mutex sync.Mutex
	known bool
	list  checklist.List
	steps []checklist.StepState
}

// of returns the steps of a list that wait to be done after what was said, in order.
func (a *asked) of(list checklist.List, log checklist.Night) []checklist.StepState {
	a.mutex.Lock()
	defer a.mutex.Unlock()
	if !a.known || !a.list.Is(list) {
		a.known, a.list, a.steps = true, list, list.Asked(log)
	}
	return a.steps
}
