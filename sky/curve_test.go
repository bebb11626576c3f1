package sky_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
)

var midnight = time.Date(2026, 12, 5, 0, 0, 0, 0, time.UTC)

func hours(h float64) time.Time { return midnight.Add(time.Duration(h * float64(time.Hour))) }

// Curves of which the zero is known in closed form.
func TestRootsThatAreKnown(t *testing.T) {
	for _, c := range []struct {
		name     string
		f        func(h float64) float64
		from, to float64
		want     float64
	}{
		{"a line", func(h float64) float64 { return h - 2.5 }, 0, 10, 2.5},
		{"a line that falls", func(h float64) float64 { return 7.25 - h }, 0, 10, 7.25},
		{"zero at the beginning", func(h float64) float64 { return h }, 0, 10, 0},
		{"zero at the end", func(h float64) float64 { return h - 10 }, 0, 10, 10},
		{"a cube, flat where it passes", func(h float64) float64 { return math.Pow(h-3, 3) }, 0, 10, 3},
		{"a ninth power, flatter still", func(h float64) float64 { return math.Pow((h-3)/3, 9) }, 0, 10, 3},
		{"a sine", func(h float64) float64 { return math.Sin(h) }, 2, 4, math.Pi},
		{"a logarithm, steep at its beginning", func(h float64) float64 { return math.Log(h/10 + 1e-9) }, 0, 100, 10},
		{"an exponential that does nothing for long", func(h float64) float64 { return math.Exp(5*(h-9)) - 1 }, 0, 10, 9},
		{"a step", func(h float64) float64 { return math.Copysign(1, h-6.125) }, 0, 10, 6.125},
	} {
		t.Run(c.name, func(t *testing.T) {
			calls := 0
			f := func(at time.Time) sky.Angle {
				calls++
				return sky.Angle(c.f(at.Sub(midnight).Hours()))
			}
			got := sky.Root(f, hours(c.from), hours(c.to))
			within := 2 * time.Millisecond
			if c.name == "a ninth power, flatter still" {
				within = 2 * time.Second // (1 s/3 h)⁹ is 10⁻³⁶: rounding in the powers is all that is left there
			}
			assert.WithinDuration(t, hours(c.want), got, within)
			assert.Less(t, calls, 110, "every fourth step halves at least: 4 · log2(36 000 000 ms)")
		})
	}
}

// A sine of a known amplitude passes any level at instants that its inverse gives; and nothing between samples is missed.
func TestCrossingsOfASine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		period := rapid.Float64Range(8, 24).Draw(t, "period, hours")
		phase := rapid.Float64Range(0, 2*math.Pi).Draw(t, "phase")
		level := rapid.Float64Range(-0.97, 0.97).Draw(t, "level")
		f := func(at time.Time) sky.Angle {
			return sky.Angle(math.Sin(2*math.Pi*at.Sub(midnight).Hours()/period+phase)) * 60 * sky.Degree
		}
		got := sky.Sample(f, midnight, hours(24), 40*time.Minute).Crossings(sky.Angle(level) * 60 * sky.Degree)
		var want []sky.Crossing
		up := math.Asin(level)
		for turn := -1.0; turn < 6; turn++ {
			for _, c := range []struct {
				at     float64
				rising bool
			}{{up, true}, {math.Pi - up, false}} {
				h := (c.at + 2*math.Pi*turn - phase) * period / (2 * math.Pi)
				if math.Min(math.Abs(h), math.Abs(h-24)) < 1./3600 {
					t.Skip("at an end, where rounding says whether it is within")
				}
				if h > 0 && h < 24 {
					want = append(want, sky.Crossing{At: hours(h), Rising: c.rising})
				}
			}
		}
		require.Len(t, got, len(want))
		for i := range want {
			require.WithinDuration(t, want[i].At, got[i].At, 10*time.Millisecond)
			require.Equal(t, want[i].Rising, got[i].Rising)
		}
	})
}

func TestCrossingsThatBarelyHappen(t *testing.T) {
	// A parabola with its top at 5 h, between two samples, and a degree and a half an hour squared steep.
	top := func(height float64) func(time.Time) sky.Angle {
		return func(at time.Time) sky.Angle {
			h := at.Sub(midnight).Hours() - 5.13
			return sky.Angle(height-1.5*h*h) * sky.Degree
		}
	}
	for _, c := range []struct {
		name   string
		height float64
		half   float64 // of the time that it is above, hours
	}{
		{"well above", 6, 2},
		{"above for less than a step", 0.01, math.Sqrt(0.01 / 1.5)},
		{"above for a minute", 0.0001, math.Sqrt(0.0001 / 1.5)},
		{"just not", -0.0001, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := sky.Sample(top(c.height), midnight, hours(10), 40*time.Minute).Crossings(0)
			if c.half < 0 {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 2)
			assert.WithinDuration(t, hours(5.13-c.half), got[0].At, time.Second)
			assert.WithinDuration(t, hours(5.13+c.half), got[1].At, time.Second)
			assert.True(t, got[0].Rising && !got[1].Rising)
		})
	}
}

// The formulas of the handbook for a levelled mount: dχ/dt = −ω cos φ cos A / cos h, dA/dt = ω (sin φ − cos φ cos A tan h).
func TestRatesOfALevelledMount(t *testing.T) {
	omega := sky.SiderealRate.DegreesPerHour()
	rapid.Check(t, func(t *rapid.T) {
		latitude := sky.Angle(rapid.Float64Range(-89, 89).Draw(t, "latitude")) * sky.Degree
		h := sky.Horizontal{
			Altitude: sky.Angle(rapid.Float64Range(-80, 88).Draw(t, "altitude")) * sky.Degree,
			Azimuth:  sky.Angle(rapid.Float64Range(0, 360).Draw(t, "azimuth")) * sky.Degree,
		}
		pole := sky.Horizontal{Altitude: latitude}.Direction()
		field, ok := sky.FieldRate(pole, h.Direction(), sky.MountAxis(0, 0))
		require.True(t, ok)
		require.InDelta(t, -omega*latitude.Cos()*h.Azimuth.Cos()/h.Altitude.Cos(), field.DegreesPerHour(), 1e-9)
		azimuth, ok := sky.AzimuthRate(pole, h.Direction(), sky.MountAxis(0, 0))
		require.True(t, ok)
		tan := h.Altitude.Sin() / h.Altitude.Cos()
		require.InDelta(t, omega*(latitude.Sin()-latitude.Cos()*h.Azimuth.Cos()*tan), azimuth.DegreesPerHour(), 1e-9)
	})
}

func TestRatesThatAnybodyKnows(t *testing.T) {
	vertical := sky.MountAxis(0, 0)
	for _, c := range []struct {
		name                        string
		latitude, altitude, azimuth float64
		field, azimuthRate          float64 // shares of the Earth's rate
	}{
		{"at the north pole azimuth follows the stars and the field stands", 90, 30, 123, 0, 1},
		{"at the south pole they go the other way", -90, 30, 123, 0, -1},
		{"due east on the equator a star rises straight up", 0, 40, 90, 0, 0},
		{"due west it sets straight down", 0, 40, 270, 0, 0},
		{"on the horizon due north at the equator the field turns as the Earth does", 0, 0, 0, -1, 0},
		{"and due south the other way", 0, 0, 180, 1, 0},
		{"at 60° north, due south, 60° up: cos φ / cos h = 1", 60, 60, 180, 1, math.Sin(math.Pi/3) + 0.5*math.Tan(math.Pi/3)},
		{"at 30° south, due north, 60° up: the field turns √3 as fast", -30, 60, 0, -math.Sqrt(3), -0.5 - 1.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			pole := sky.Horizontal{Altitude: sky.Angle(c.latitude) * sky.Degree}.Direction()
			target := sky.Horizontal{Altitude: sky.Angle(c.altitude) * sky.Degree, Azimuth: sky.Angle(c.azimuth) * sky.Degree}.Direction()
			field, ok := sky.FieldRate(pole, target, vertical)
			require.True(t, ok)
			assert.InDelta(t, c.field, float64(field/sky.SiderealRate), 1e-12)
			azimuth, ok := sky.AzimuthRate(pole, target, vertical)
			require.True(t, ok)
			assert.InDelta(t, c.azimuthRate, float64(azimuth/sky.SiderealRate), 1e-12)
		})
	}
}

// Along a track the angle is the sum of its rate, whatever the axis, and the samples are the frame's own directions.
func TestAPathIsTheSumOfItsRate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site := sky.Site{Latitude: sky.Angle(rapid.Float64Range(-66, 66).Draw(t, "latitude")) * sky.Degree}
		star := sky.Star{Place: sky.J2000(anyPeerPlace(t))}
		frame := sky.NewFrame(site, hours(12), 0)
		track := frame.Track(frame.Fix(star), hours(9), hours(15.02), 10*time.Minute)
		axis := sky.MountAxis(sky.Angle(rapid.Float64Range(0, 4).Draw(t, "tilt"))*sky.Degree, sky.Angle(rapid.Float64Range(0, 360).Draw(t, "toward"))*sky.Degree)
		for _, d := range track.Sampled() {
			if d.Cross(axis).Length() < 0.1 { // too fast for the sum's steps
				t.Skip("beside the axis")
			}
		}
		path, sum := track.Path(axis), sky.Angle(0)
		const step = time.Minute
		for at := track.From(); at.Before(track.To().Add(-step)); at = at.Add(step) {
			sum += path.Rate(at.Add(step / 2)).Times(step)
			require.InDelta(t, (path.At(at.Add(step)) - path.At(track.From())).Degrees(), sum.Degrees(), 0.05,
				"0.02 % is the drift of the place, which the rate leaves out; the sum's own error is less")
		}
		require.Equal(t, axis, path.Axis())
		require.Same(t, track, path.Track())
		for i, at := range track.Times() {
			require.Equal(t, frame.Direction(frame.Fix(star), at), track.Sampled()[i])
			require.Equal(t, track.Sampled()[i], track.At(at))
		}
	})
}
