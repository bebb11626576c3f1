package advice

import (
	"time"

	"duskhand/checklist"
	"duskhand/sky"
)

// TooEarly is something that is said before its time. It is noted all the same: the person may insist.
type TooEarly struct {
	Why    Why       // Twilight, or why the target can't be used yet
	Begins time.Time // when it makes sense
	Turns  sky.Angle // of a derotator that is turned on: by how much the stage turns until then
}

// TooEarly tells whether an action comes before its time: subs while it is not dark, or the derotator on longer before
// the target can be used than framing takes.
func (m Moment) TooEarly(a checklist.Action) (early TooEarly, ok bool) {
	begins := m.Window.From
	if m.Window.Length() == 0 || !m.Now.Before(begins) || m.Log.Subs != nil {
		return TooEarly{}, false
	}
	d := decider{Moment: m}
	early = TooEarly{Why: d.whyShut(m.Window.OpensAfter), Begins: begins}
	switch a.(type) {
	case checklist.StartSubs:
		return early, true
	case checklist.TurnOn:
		early.Turns = (m.Course.FieldAngle(begins) - m.Course.FieldAngle(m.Now)).Abs()
		return early, m.Now.Before(begins.Add(-m.Kit.Mount.Frame - time.Minute))
	}
	return TooEarly{}, false
}
