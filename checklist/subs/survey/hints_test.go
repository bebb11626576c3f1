package survey_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var evening = time.Date(2026, 12, 5, 11, 0, 0, 0, time.UTC)

// points are lights of a night through L, R, G in turn, five minutes apart; change makes each what it is.
func points(n int, seed uint64, change func(i int, p *survey.Point)) []survey.Point {
	r := rand.New(rand.NewPCG(seed, 1))
	sizes := map[string]float64{"L": 2.8, "R": 2.9, "G": 3.1} // the air and the glass differ by colour
	list := make([]survey.Point, n)
	for i := range list {
		filter := []string{"L", "R", "G"}[i%3]
		list[i] = survey.Point{Start: evening.Add(time.Duration(i) * 5 * time.Minute), Exposure: 280 * time.Second, Filter: filter, Run: i / 20,
			HFD: sky.Angle(sizes[filter]*(1+0.06*r.NormFloat64())) * sky.Arcsecond, Stars: 400 + int(20*r.NormFloat64()),
			BackgroundADU: 800 + 3*r.NormFloat64(), NoiseADU: 12 + 0.1*r.NormFloat64(), Elongation: 1.1}
		if change != nil {
			change(i, &list[i])
		}
	}
	return list
}

// Seeing of 6 % from light to light: a hundred nights, looked at after each light, and no hint.
func TestNoHintInACleanNight(t *testing.T) {
	for seed := range uint64(100) {
		night := points(60, seed, nil)
		for n := range night {
			require.Empty(t, survey.Hints(night[:n], evening), "night %d, light %d", seed, n)
		}
	}
	assert.Empty(t, survey.Hints(nil, time.Time{}))
}

func TestRefocus(t *testing.T) {
	drifting := points(40, 1, func(i int, p *survey.Point) { p.HFD *= sky.Angle(1 + 0.015*float64(i)) })
	first := -1
	for n := range drifting {
		if hint, ok := survey.Refocus(drifting[:n], evening); ok && first < 0 {
			first = n
			assert.Equal(t, survey.FocusDrifts, hint.Kind)
			assert.Greater(t, hint.Grown, 0.25)
			assert.True(t, hint.Focused)
			assert.Equal(t, drifting[n-1].Start, hint.At)
		}
	}
	t.Logf("hint after %d lights, when stars have grown by %.0f %%", first, 1.5*float64(first))
	assert.Greater(t, first, 14, "a quarter more is reached after 17")
	assert.Less(t, first, 36)
	_, again := survey.Refocus(drifting, drifting[33].Start)
	assert.False(t, again, "focused since: too few lights to tell")
	_, one := survey.Refocus(points(30, 2, func(i int, p *survey.Point) {
		if i == 29 {
			p.HFD *= 2
		}
	}), evening)
	assert.False(t, one, "one bad light is no trend")
}

func TestCloudAndSky(t *testing.T) {
	cloudy := points(12, 3, func(i int, p *survey.Point) {
		if i == 11 {
			p.Stars = 150
		}
	})
	hint, ok := survey.Clouded(cloudy)
	require.True(t, ok)
	assert.Equal(t, survey.StarsMissing, hint.Kind)
	assert.Equal(t, 150, hint.Stars)
	assert.InDelta(t, 400, hint.Usual, 20)
	cloudy[11].Filter = "Ha"
	_, ok = survey.Clouded(cloudy)
	assert.False(t, ok, "another filter has other counts")
	cloudy[11].Filter, cloudy[11].Run = "G", 1
	_, ok = survey.Clouded(cloudy)
	assert.False(t, ok, "the first of its run has none to be held against")

	moon := points(30, 4, func(i int, p *survey.Point) { // the sky doubles within 20 lights
		rise := max(0, float64(i-10)) * 0.07
		p.BackgroundADU += 300 * rise
		p.NoiseADU *= 1 + 0.5*rise
	})
	_, ok = survey.Brightened(moon[:15])
	assert.False(t, ok)
	hint, ok = survey.Brightened(moon)
	require.True(t, ok)
	assert.Equal(t, survey.SkyBrightens, hint.Kind)
	assert.Greater(t, hint.Brighter, 2.0)
	noisy := points(30, 4, func(i int, p *survey.Point) {
		if i > 20 {
			p.NoiseADU *= 2 // of the camera: the level is as it was
		}
	})
	_, ok = survey.Brightened(noisy)
	assert.False(t, ok)
	assert.Len(t, survey.Hints(moon, evening), 1)
}

// The lights of the journal as a trend: diameters by scale and binning, copies and darks left out.
func TestTrend(t *testing.T) {
	n := newNight(t, 11, nil)
	for i := range 3 {
		n.hand(n.seen(i, nil))
	}
	binned := n.seen(3, nil)
	binned.Header.BinX, binned.Header.BinY = 2, 2
	n.hand(binned)
	dark := n.seen(4, nil)
	dark.Header.Kind, dark.Measured = "dark", nil
	n.hand(dark)
	ledger := arrival.Keep(arrival.Kept(n.log), arrival.Situation{Kit: n.kit, Night: n.log, Current: "Tarantula", Now: n.from.Add(time.Hour)})
	got := survey.Trend(ledger, n.kit)
	require.Len(t, got, 4)
	assert.InDelta(t, 2.8*2, got[0].HFD.Arcseconds(), 1e-6, "pixels of 2″")
	assert.InDelta(t, 2.8*4, got[3].HFD.Arcseconds(), 1e-6, "binned twice")
	assert.Equal(t, 0, got[0].Run)
	assert.Equal(t, "L", got[0].Filter)
	assert.Equal(t, 800.0, got[0].BackgroundADU)
	assert.Equal(t, 1.6157, float64(int(kit.Example().ScaleArcsecPerPixel()*1e4+0.5))/1e4) // 206.265 × 3.76 / 480
}
