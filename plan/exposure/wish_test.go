package exposure_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/exposure"
)

// The two ways round agree: a star of the magnitude that just fills a pixel in the kit's exposure fills it in
// that exposure; and the subs for the signal to noise that the kit's count gives are that count.
func TestWishesTurnTheFiguresRound(t *testing.T) {
	for _, a := range advised(moonless(), asItIs, exposure.Moment{}) {
		require.True(t, a.Saturates.OK && a.Signal.OK, a.Filter.Name)
		m := exposure.Moment{}
		mag := a.Saturates.Value
		m.Star, m.SignalToNoise = &mag, a.Signal.Value.PerArcsec2
		for _, again := range advised(moonless(), asItIs, m) {
			if again.Filter.Name != a.Filter.Name {
				continue
			}
			require.True(t, again.StarFills.OK && again.SubsWanted.OK)
			assert.InDelta(t, a.Filter.Exposure.Seconds(), again.StarFills.Value.Seconds(), 1e-6*a.Filter.Exposure.Seconds())
			assert.Equal(t, a.Filter.Count, again.SubsWanted.Value)
		}
	}
	plain := advised(moonless(), asItIs, exposure.Moment{})[0]
	assert.Equal(t, exposure.Figure[time.Duration]{}, plain.StarFills, "nothing was asked for")
	assert.False(t, plain.SubsWanted.OK)
}
