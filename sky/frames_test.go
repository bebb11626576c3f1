package sky_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/sky"
)

func anySite(t *rapid.T) sky.Site {
	return sky.Site{
		Latitude:        sky.Angle(rapid.Float64Range(-90, 90).Draw(t, "latitude")) * sky.Degree,
		Longitude:       sky.Angle(rapid.Float64Range(-180, 180).Draw(t, "longitude")) * sky.Degree,
		ElevationMetres: rapid.Float64Range(-400, 6000).Draw(t, "elevation"),
	}
}

func anyInstant(t *rapid.T) time.Time {
	from := time.Date(1950, 1, 1, 0, 0, 0, 0, time.UTC)
	return from.Add(time.Duration(rapid.Int64Range(0, 150*365*24*3600).Draw(t, "seconds")) * time.Second)
}

func anyStar(t *rapid.T) sky.Star {
	return sky.Star{Place: sky.J2000{
		RA:  sky.Angle(rapid.Float64Range(0, 360).Draw(t, "ra")) * sky.Degree,
		Dec: sky.Angle(rapid.Float64Range(-90, 90).Draw(t, "dec")) * sky.Degree,
	}}
}

// A kept frame gives what a fresh one around the very instant gives: both are within 0.006″ of the truth for
// the fortnightly nutation's bend.
func TestKeptFramesAreAsGoodAsFreshOnes(t *testing.T) {
	var kept sky.Frames
	rapid.Check(t, func(t *rapid.T) {
		site, at, star := anySite(t), anyInstant(t), anyStar(t)
		fresh, frame := sky.NewFrame(site, at, 0), kept.Around(site, at, 0)
		apart := fresh.Direction(fresh.Fix(star), at).Separation(frame.Direction(frame.Fix(star), at))
		if apart > 0.004*sky.Arcsecond { // the aberration is that of the middle, ten minutes away: 0.0025″, and what is left of nutation
			t.Fatalf("%v apart", apart.Arcseconds())
		}
	})
}

// The answer to a question does not depend on the questions before, and frames are not shared between sites, days
// or time scales.
func TestKeptFramesDoNotDependOnTheOrder(t *testing.T) {
	var long sky.Frames
	rapid.Check(t, func(t *rapid.T) {
		var short sky.Frames
		site, at, star := anySite(t), anyInstant(t), anyStar(t)
		dut1 := time.Duration(rapid.Int64Range(-1e9, 1e9).Draw(t, "dut1"))
		a, b := short.Around(site, at, dut1), long.Around(site, at, dut1)
		if a.Horizontal(a.Fix(star), at) != b.Horizontal(b.Fix(star), at) || a.SiderealTime(at) != b.SiderealTime(at) || a.Site() != site {
			t.Fatal("another answer")
		}
		if d := at.Sub(b.Middle()).Abs(); d > 10*time.Minute {
			t.Fatalf("%v from the frame's middle", d)
		}
	})
}

func TestOneFrameServesAStretchOfTheNight(t *testing.T) {
	var kept sky.Frames
	site, at := sky.Site{Latitude: -32 * sky.Degree}, time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	assert.Same(t, kept.Around(site, at, 0), kept.Around(site, at.Add(5*time.Minute), 0))
	assert.Zero(t, testing.AllocsPerRun(10, func() { kept.Around(site, at, 0) }))
}

func BenchmarkFrameFresh(b *testing.B) {
	site, at := sky.Site{Latitude: -32 * sky.Degree}, time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	for b.Loop() {
		sky.NewFrame(site, at, 0)
	}
}

func BenchmarkFrameKept(b *testing.B) {
	var kept sky.Frames
	site, at := sky.Site{Latitude: -32 * sky.Degree}, time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC)
	for b.Loop() {
		kept.Around(site, at, 0)
	}
}
