package clock_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/ui/clock"
	"duskhand/ui/testdata/clocks"
)

func TestOnlyTheMachinesOwnClockHasAMachine(t *testing.T) {
	assert.NotNil(t, clock.System().Machine().Zone)
	assert.Equal(t, clock.Machine{}, clocks.Fixed(dusk).Machine())
	assert.Equal(t, clock.Machine{}, clock.System().Replay(dusk, 1).Machine())
	m := clock.Machine{Zone: time.UTC, Known: true}
	assert.Equal(t, m, clock.From(clock.Source{Machine: func() clock.Machine { return m }}).Machine())
}
