package checklist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
)

// A temperature that is read while a run goes on is not the one of the pause after it.
func TestATemperatureReadInARunDoesNotTickThePauseAfterIt(t *testing.T) {
	s := begin(t).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{}).say(60, checklist.ReadTemperature{TempC: 7}).
		say(82, checklist.StopSubs{})
	sharp := func() checklist.State {
		for _, step := range checklist.Steps().State(s.night) {
			if step.ID == "still-sharp" {
				return step.State
			}
		}
		return ""
	}
	assert.Equal(t, checklist.Open, sharp())
	s.say(83, checklist.ReadTemperature{TempC: 6})
	assert.Equal(t, checklist.Done, sharp())
}
