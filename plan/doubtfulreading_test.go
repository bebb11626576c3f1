package plan_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// A reading typed 5° wrong is named and left out, any one of four or more.
func TestWrongReadingIsNamed(t *testing.T) {
	const seed, trials = 25, 200
	random := rand.New(rand.NewPCG(seed, 0))
	named, within := 0, 0
	for range trials {
		tr := anyTracked(random)
		n := 4 + random.IntN(4)
		readings, wrong := tr.read(random, n, readingError), random.IntN(n)
		readings[wrong].Angle += 5 * sky.Degree * sky.Angle(1-2*random.IntN(2))
		fit, err := tr.believed.FitTilt(readings, readingError)
		require.NoError(t, err)
		require.LessOrEqual(t, len(fit.Doubtful), n/3)
		if len(fit.Doubtful) == 1 && fit.Doubtful[0] == wrong {
			named++
		}
		if tr.off(fit.Axis) <= fit.Axis.Uncertainty.Degrees() {
			within++
		}
	}
	t.Logf("seed %d: %d of %d named, %d within the circle", seed, named, trials, within)
	assert.GreaterOrEqual(t, named, trials*90/100, "seed %d", seed)
	assert.GreaterOrEqual(t, within, trials*93/100, "seed %d", seed)
}

func TestReadingsThatWontDo(t *testing.T) {
	start := time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)
	tr := aTracked(2*sky.Degree, 0, 3*sky.Degree, start, time.Hour)
	good := tr.read(rand.New(rand.NewPCG(5, 0)), 3, 0)
	changed := func(change func(*plan.Anchor)) []plan.Anchor {
		readings := append([]plan.Anchor(nil), good...)
		change(&readings[1])
		return readings
	}
	for _, c := range []struct {
		name     string
		readings []plan.Anchor
		err      sky.Angle
		says     string
	}{
		{"none", nil, readingError, "takes three readings of the derotator in one run, some twenty minutes apart, and there are none; note its angle again later"},
		{"one", good[:1], readingError, "there is one"},
		{"two", good[:2], readingError, "there are two"},
		{"no error", good, 0, "the error of a reading is 0°; give how finely"},
		{"an error that is no number", good, sky.Angle(math.NaN()), "the error of a reading is NaN°"},
		{"no angle", changed(func(a *plan.Anchor) { a.Angle = sky.Angle(math.NaN()) }), readingError, "reading 2 is no angle; give what the derotator shows"},
		{"another night", changed(func(a *plan.Anchor) { a.At = a.At.Add(48 * time.Hour) }), readingError, "reading 2 is of 2026-12-07 14:20 UTC, outside the night from"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := tr.believed.FitTilt(c.readings, c.err)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

// At the celestial pole the field has no angle.
func TestReadingsOfThePole(t *testing.T) {
	k := exampleKit()
	night := plan.NewNight(k, exampleDate)
	pole := night.Frame.Pole().Horizontal() // the north pole, below the horizon at Perth: no matter here
	require.Less(t, pole.Altitude, sky.Angle(0))
	course := night.Course(k.Targets[0], kit.Axis{Uncertainty: 3 * sky.Degree})
	at := night.Span.From.Add(8 * time.Hour)
	place := course.Place(at)
	leaning := night.Course(k.Targets[0], kit.Axis{Tilt: 90*sky.Degree - place.Altitude, Toward: place.Azimuth, Uncertainty: sky.Degree})
	_, err := leaning.FitTilt([]plan.Anchor{{At: at}, {At: at}, {At: at}}, readingError)
	require.ErrorContains(t, err, "in the mount's axis at reading 1")
}
