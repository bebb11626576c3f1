package advice

import (
	"duskhand/checklist"
	"duskhand/checklist/subs/turning"
	"time"
)

// Turning returns what the last light of the present run says of the derotator; ok is false when none has said
// anything yet.
func (m Moment) Turning() (said checklist.TurningBody, ok bool) {
	run, open := m.Log.OpenRun()
	if !open {
		return checklist.TurningBody{}, false
	}
	for i := len(m.Log.Arrived) - 1; i >= 0; i-- {
		a := m.Log.Arrived[i]
		if a.Turning == nil {
			continue
		}
		began, known := a.Began()
		return *a.Turning, known && !began.Before(run.Start.Add(-clockSlack))
	}
	return checklist.TurningBody{}, false
}

// clockSlack is by how much earlier than its run a light may seem to begin: by our clock it is as well known as how
// long a frame takes to arrive, and where only the header tells, the two clocks were set by hand.
const clockSlack = 30 * time.Second

// FieldTurns tells that the lights of the present run say so: two in a row that are spoilt by it, or a stretch
// of short ones that shows for certain that the derotator stands still or turns the wrong way.
func (m Moment) FieldTurns() bool {
	said, ok := m.Turning()
	kind := turning.Kind(said.Kind)
	return ok && (said.Alarm || said.Lights >= certainLights && (kind == turning.Off || kind == turning.Reversed))
}

// certainLights is how many lights make a stretch.
const certainLights = 3
