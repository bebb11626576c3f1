package session

import (
	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// learn draws what can be drawn from an event of this program's: a sight or a reading tells of the axis,
// and a newly measured axis moves the countdown's bounds, which is told.
func (m Session) learn(e journal.Event, before *facts.Tonight) Session {
	var learned facts.Learned
	switch e.Kind {
	case checklist.KindSighted:
		if !checklist.WithReadout(e) {
			return m
		}
		learned = m.Status.Tonight.LearnFromSights()
	case checklist.KindRead:
		var any bool
		if learned, any = m.Status.Tonight.LearnFromReadings(); !any {
			if m.Status.Log.Anchor != nil {
				m.Notice = ""
				if off, far := before.ReadingOff(m.Status.Log.Anchor.Angle, e.At); far {
					m.Notice = say.ReadingOff(off)
				}
			}
			return m
		}
	case checklist.KindSubArrived:
		if light, ok := checklist.PlacedBy(e); ok {
			if shown, ok := m.Status.Run.StarShown(m.Status.Stars); ok {
				m.Notice = say.StarShown(shown)
			}
			// Of the light itself that tells: later ones would say again what a person has taken back.
			if landed, ok := m.Status.Run.Landing(); ok && landed.Light == light {
				m.waiting = append(m.waiting[:len(m.waiting):len(m.waiting)], utterance{action: landed})
			}
			for _, action := range m.Status.Tonight.LearnFromFrames() {
				m.waiting = append(m.waiting[:len(m.waiting):len(m.waiting)], utterance{action: action})
			}
		}
		return m
	case checklist.KindAxisMeasured:
		m.Notice = say.AxisChanged(m.Status.Tonight.Changed(before, m.Status.Now))
		return m
	default:
		return m
	}
	m.Notice = say.Learned(learned, m.Status.Zone())
	if learned.Action != nil {
		m.waiting = append(m.waiting[:len(m.waiting):len(m.waiting)], utterance{action: learned.Action})
	}
	return m
}
