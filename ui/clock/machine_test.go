package clock_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/clock"
)

func TestOnlyTheMachinesOwnClockHasAMachine(t *testing.T) {
	assert.NotNil(t, clock.System().Machine().Zone)
	assert.Equal(t, clock.Machine{}, clock.Fixed(dusk).Machine())
	assert.Equal(t, clock.Machine{}, clock.Replay(dusk, 1).Machine())
	m := clock.Machine{Zone: time.UTC, Known: true}
	assert.Equal(t, m, clock.Fixed(dusk).OnMachine(m).Machine())
}
