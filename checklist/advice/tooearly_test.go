package advice_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
)

// It is dark from 11:07 on, and framing takes ten minutes.
func TestWhatIsSaidBeforeItsTimeIsSpokenAgainst(t *testing.T) {
	for _, c := range []struct {
		name         string
		hour, minute int
		action       checklist.Action
		early        bool
	}{
		{"the derotator 57 minutes before dark", 10, 10, checklist.TurnOn{Angle: degrees(-16)}, true},
		{"the derotator in time for framing", 10, 58, checklist.TurnOn{Angle: degrees(-16)}, false},
		{"subs a minute before dark", 11, 6, checklist.StartSubs{}, true},
		{"subs in the dark", 11, 8, checklist.StartSubs{}, false},
		{"a note", 10, 10, checklist.WriteNote{Text: "cold"}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := example(t, nil).at(utc(c.hour, c.minute))
			early, ok := m.TooEarly(c.action)
			assert.Equal(t, c.early, ok)
			if ok {
				assert.Equal(t, advice.Twilight, early.Why)
				assert.WithinDuration(t, utc(11, 7), early.Begins, time.Minute)
			}
		})
	}
}

// Subs that the person takes 57 minutes before dark: they are no part of what is wanted, while they are taken and after.
func TestSubsInTwilightAreNoPartOfWhatIsWanted(t *testing.T) {
	n := example(t, nil)
	n.say(utc(10, 10), checklist.TurnOn{Angle: degrees(-16)})
	n.say(utc(10, 10), checklist.StartSubs{})
	for _, at := range []time.Time{utc(10, 40), utc(10, 50)} {
		m := n.at(at)
		assert.Greater(t, m.Early, 10, "%s", at)
		for _, count := range m.Counts {
			assert.Zero(t, count.Taken, "%s at %s", count.Filter, at)
		}
		assert.Zero(t, m.Past()[0].Subs)
		assert.Zero(t, m.TakenExposed())
		assert.LessOrEqual(t, m.SubsLeft(), m.PlannedExposed(), "they are not promised")
		assert.Equal(t, m.Early, m.Past()[0].Early)
		if at.Equal(utc(10, 40)) {
			n.say(at, checklist.StopSubs{})
		}
	}
}
