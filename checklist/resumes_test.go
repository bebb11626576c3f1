package checklist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// Whether the derotator is seen to turn again after a rewind depends on whether it tracks again by itself.
func TestADerotatorThatTracksAgainByItselfIsSeenOnce(t *testing.T) {
	for _, c := range []struct {
		name    string
		resumes bool
		want    checklist.State
	}{{"it is to be turned on again", false, checklist.Open}, {"it resumes", true, checklist.Done}} {
		t.Run(c.name, func(t *testing.T) {
			k := kit.Example()
			k.Derotator.Resumes = c.resumes
			s, steps := begin(t), checklist.Steps().For(k)
			seen := func() checklist.State {
				for _, step := range steps.State(s.night) {
					if step.ID == "derotator-seen" {
						return step.State
					}
				}
				return ""
			}
			s.say(0, checklist.TurnOn{Angle: deg(-16)})
			s.say(1, checklist.DoStep{Step: "derotator-seen"})
			s.say(2, checklist.StartSubs{})
			require.Equal(t, checklist.Done, seen())
			s.say(90, checklist.StopSubs{})
			s.say(91, checklist.Rewound{To: *deg(-16)})
			assert.Equal(t, c.want, seen())
			s.say(92, checklist.TurnOff{})
			s.say(93, checklist.TurnOn{Angle: deg(-16)})
			assert.Equal(t, checklist.Open, seen(), "it was off")
		})
	}
}
