package checklist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
)

// Cables that were said to hang straight in the evening are asked for again in the morning: the telescope has been sent
// somewhere since. That the runs are over does not end what comes after them.
func TestTheCablesAreUnwoundBeforeTheMountIsParked(t *testing.T) {
	s := begin(t).say(0, checklist.CablesStraight{})
	assert.Equal(t, checklist.Done, s.state("unwind-cables").State, "nothing has turned yet")
	s.say(1, checklist.ChooseTarget{Target: tarantula}).say(2, checklist.TurnOn{Angle: deg(-16)}).say(3, checklist.StartSubs{})
	assert.Equal(t, checklist.Open, s.state("unwind-cables").State)
	s.say(300, checklist.StopSubs{}).say(301, checklist.TurnOff{})
	assert.Equal(t, checklist.Done, s.state("end-the-runs").State)
	assert.Equal(t, checklist.Open, s.state("unwind-cables").State)
	assert.Contains(t, unmetOf(s.state("park")), "Nobody has said that the mount's cables hang straight: see to that before you park it.")
	s.say(302, checklist.CablesStraight{})
	assert.Equal(t, checklist.Done, s.state("unwind-cables").State)
	assert.NotContains(t, unmetOf(s.state("park")), "Nobody has said that the mount's cables hang straight: see to that before you park it.")
}

func unmetOf(s checklist.StepState) (said []string) {
	for _, g := range s.Unmet {
		said = append(said, g.Say)
	}
	return said
}
