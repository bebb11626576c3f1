package framing_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
)

// All rows of equinox.csv (ERFA through pyerfa 2.0.0.1). The tolerance is its own: a thousandth of a degree is
// a fifteenth of a pixel at the corner of the largest chip. 20″ of aberration turn the sky by 0.1° at 87°, and
// are in both.
func TestPositionAnglesOfDateAgreeWithERFA(t *testing.T) {
	worst, largest := 0.0, 0.0
	for _, r := range table(t, "equinox.csv", 120) {
		at, err := time.Parse(time.RFC3339, r["utc"])
		require.NoError(t, err)
		frame := sky.NewFrame(sky.Site{}, at, 0)
		got, ok := frame.PositionAngleSinceJ2000(sky.J2000{RA: r.degrees(t, "ra_deg"), Dec: r.degrees(t, "dec_deg")}, at)
		require.True(t, ok)
		off := (got - r.degrees(t, "turn_deg")).Signed().Abs().Degrees()
		worst, largest = max(worst, off), max(largest, got.Abs().Degrees())
		assert.Less(t, off, 0.001, "row %s", r["id"])
	}
	t.Logf("largest difference %.6f° in turns of up to %.2f°", worst, largest)
	assert.Greater(t, largest, 1.0, "the table reaches where it matters")
}

func TestAnglesOfDateAndOfJ2000(t *testing.T) {
	night := exampleNight()
	rapid.Check(t, func(t *rapid.T) {
		place, at := anyPlace(t), night.Span.From.Add(12*time.Hour)
		angle := anyAngle(t, "angle", 0, 360)
		back := night.Frame.PositionAngleOfDate(place, at, night.Frame.PositionAngleOfJ2000(place, at, angle))
		require.InDelta(t, 0, Signed(back-angle), 1e-12)
		require.True(t, back >= 0 && back < sky.Turn)
	})
	_, ok := night.Frame.PositionAngleSinceJ2000(sky.J2000{Dec: 89.95 * sky.Degree}, night.Span.From)
	assert.False(t, ok, "within a tenth of a degree of the pole")
}

func TestTheTurnOfTheExampleStandsStillThroughTheNight(t *testing.T) {
	night := exampleNight()
	place := night.Kit.Targets[0].Star.Place
	dusk, ok := night.Frame.PositionAngleSinceJ2000(place, night.Span.From.Add(8*time.Hour))
	require.True(t, ok)
	dawn, _ := night.Frame.PositionAngleSinceJ2000(place, night.Span.From.Add(17*time.Hour))
	// By hand: n·t·sin α/cos δ = 20.04″ × 26.93 × sin 84.7° / cos 69.1° = 1506″ = 0.418°; nutation and
	// aberration add up to 20″ · tan 69° = 0.015° each.
	assert.InDelta(t, 0.418, dusk.Degrees(), 0.03)
	assert.InDelta(t, dusk.Degrees(), dawn.Degrees(), 0.0005)
}
