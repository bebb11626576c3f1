package drift_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/frames/drift"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

var begins = time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC)

// lived is a run of so many lights, three minutes apart and dithered by up to 4″, that drift by so much an hour along the
// mount's axes, and whose camera turns by so much an hour.
func lived(seed uint64, lights int, azimuth, altitude, turning sky.Rate, guided bool) (checklist.Night, *plan.Night, kit.Axis, *plan.Course) {
	k := kit.Example()
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	course := night.Course(k.Targets[0], k.Axis)
	r := rand.New(rand.NewPCG(seed, 11))
	n := checklist.Night{Runs: []checklist.Run{{Start: begins, Open: true}}, Guiding: checklist.Guiding{On: guided, Since: begins}}
	wanted := framing.Middle(k.Targets[0])
	for i := range lights {
		start, exposure := begins.Add(time.Duration(i)*3*time.Minute), 120.0
		at := start.Add(time.Minute)
		east := azimuth.Times(at.Sub(begins)) + sky.Angle(8*r.Float64()-4)*sky.Arcsecond
		up := altitude.Times(at.Sub(begins)) + sky.Angle(8*r.Float64()-4)*sky.Arcsecond
		looks := moved(night, k.Axis, wanted, at, east, up)
		ns := start.UnixNano()
		n.Arrived = append(n.Arrived, checklist.Arrived{SubArrivedBody: checklist.SubArrivedBody{OursNs: &ns, ExposureS: &exposure,
			Placed: &checklist.PlacedBody{RADeg: looks.RA.Degrees(), DecDeg: looks.Dec.Degrees(), ScaleArcsec: 1.5, AngleErrorDeg: 0.003,
				CameraAngleDeg: 50 + turning.Times(at.Sub(begins)).Degrees() + 0.003*r.NormFloat64()}}})
	}
	return n, night, k.Axis, course
}

// moved returns the place on the sky that lies so far from another along the mount's axes, found by small steps in right
// ascension and declination: the reverse of what is tested, by another way.
func moved(night *plan.Night, axis kit.Axis, from sky.J2000, at time.Time, east, up sky.Angle) sky.J2000 {
	mount := sky.MountAxis(axis.Tilt, axis.Toward)
	stands := func(p sky.J2000) sky.Direction { return night.Frame.Direction(night.Frame.Fix(sky.Star{Place: p}), at) }
	place := from
	for range 4 {
		const small = sky.Arcsecond
		off := func(p sky.J2000) (x, y float64) {
			m, _ := framing.Move(mount, stands(from), stands(p))
			return float64(m.AzimuthOnSky), float64(m.Altitude)
		}
		x, y := off(place)
		xr, yr := off(sky.J2000{RA: place.RA + small, Dec: place.Dec})
		xd, yd := off(sky.J2000{RA: place.RA, Dec: place.Dec + small})
		a, b, c, d := (xr-x)/float64(small), (xd-x)/float64(small), (yr-y)/float64(small), (yd-y)/float64(small)
		dx, dy := float64(east)-x, float64(up)-y
		det := a*d - b*c
		place.RA += sky.Angle((d*dx - b*dy) / det)
		place.Dec += sky.Angle((a*dy - c*dx) / det)
	}
	return place
}

const arcsecPerHour = sky.DegreePerHour / 3600

func TestWhyAPictureDriftsIsToldWhereLightsCanTell(t *testing.T) {
	for _, c := range []struct {
		name             string
		lights           int
		azimuth, up, rot sky.Rate
		guided           bool
		want             drift.Kind
	}{
		{"guided, and it stands", 40, 0, 0, 0, true, drift.None},
		{"unguided, and it stands", 40, 0, 0, 0, false, drift.None},
		{"unguided", 20, 40 * arcsecPerHour, -25 * arcsecPerHour, 0, false, drift.Unguided},
		{"the telescopes bend apart", 40, 0, 14 * arcsecPerHour, 0, true, drift.Bends},
		{"about the guide star", 40, 12 * arcsecPerHour, 8 * arcsecPerHour, 0.5 * sky.DegreePerHour, true, drift.Turns},
		{"it turns about the middle", 40, 0, 0, 0.5 * sky.DegreePerHour, true, drift.None},
		{"too few lights", 7, 200 * arcsecPerHour, 0, 0, false, drift.None},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			for seed := range uint64(20) {
				f := drift.Of(lived(seed, c.lights, c.azimuth, c.up, c.rot, c.guided))
				require.Equal(t, c.want, f.Kind, "seed %d: %+v", seed, f)
				if f.Kind != drift.None {
					assert.InDelta(t, float64(c.azimuth), float64(f.Azimuth), 4*float64(f.Error))
					assert.InDelta(t, float64(c.up), float64(f.Altitude), 4*float64(f.Error))
				}
			}
		})
	}
}

// What came before the target was brought back, or before guiding began, is another drift.
func TestANudgeBeginsTheDriftAnew(t *testing.T) {
	n, night, axis, course := lived(1, 40, 60*arcsecPerHour, 0, 0, false)
	require.Equal(t, drift.Unguided, drift.Of(n, night, axis, course).Kind)
	nudged := begins.Add(105 * time.Minute) // five lights after it
	n.Recentred = &nudged
	f := drift.Of(n, night, axis, course)
	assert.Equal(t, drift.None, f.Kind)
	assert.Equal(t, 5, f.Lights)
	n.Runs[0].Open = false
	assert.Zero(t, drift.Of(n, night, axis, course).Lights, "no run goes on")
}
