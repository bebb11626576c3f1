package plan_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Sights that determine nothing, or can't have been, are errors that say what would be right.
func TestSightsThatWontDo(t *testing.T) {
	place := sky.Site{Latitude: -31.95 * sky.Degree, Longitude: 115.86 * sky.Degree}
	at := time.Date(2026, 12, 5, 14, 30, 0, 0, time.UTC)
	frame := sky.NewFrame(place, at, 0)
	sight := func(name string, altitude, azimuth sky.Angle) plan.Sight {
		star, err := catalog.Find(name)
		require.NoError(t, err)
		return plan.Sight{Name: name, Star: star.Star, At: at, Readout: sky.Horizontal{Altitude: altitude, Azimuth: azimuth}}
	}
	// opposite returns a star where none is: across the sky from another.
	opposite := func(s plan.Sight, altitude, azimuth sky.Angle) plan.Sight {
		s.Name, s.Star.Place = "the star across", sky.J2000{RA: (s.Star.Place.RA + 180*sky.Degree).Wrapped(), Dec: -s.Star.Place.Dec}
		s.Readout = sky.Horizontal{Altitude: altitude, Azimuth: azimuth}
		return s
	}
	const deg = sky.Degree
	sirius, canopus := sight("Sirius", 50*deg, 80*deg), sight("Canopus", 52*deg, 140*deg)
	for _, c := range []struct {
		name   string
		sights []plan.Sight
		says   string
	}{
		{"none", nil, "there are no sights; centre two stars 30° to 150° apart"},
		{"one", []plan.Sight{sirius}, "there is one sight, of Sirius, and the mount may still be turned any way about that star; centre a second one"},
		{"one star twice", []plan.Sight{sirius, sirius}, "Sirius was sighted twice, which counts as one sight; centre a second star"},
		{"one star under two names", []plan.Sight{sirius, renamed(sirius, "α CMa")}, "Sirius and α CMa are the same star, or as good as; choose two stars 30° to 150° apart"},
		{"two near stars", []plan.Sight{sight("Mintaka", 50*deg, 30*deg), sight("Alnitak", 51*deg, 33*deg)}, "Mintaka and Alnitak are only 2.7° apart, too near to tell"},
		{"three near stars", []plan.Sight{sight("Mintaka", 50*deg, 30*deg), sight("Alnitak", 51*deg, 33*deg), sight("Alnilam", 50*deg, 31*deg)}, "are only 2.7° apart"},
		{"readouts that did not move", []plan.Sight{sirius, renamed(withReadout(canopus, sirius.Readout), "")}, "the readouts at Sirius and star 2 are 0.0° apart, the stars 3"},
		{"an altitude beyond the zenith", []plan.Sight{sirius, withReadout(canopus, sky.Horizontal{Altitude: 100 * deg})}, "the mount's altitude at Canopus is 100°; give what that axis reads, −90° to 90°"},
		{"an altitude that is no number", []plan.Sight{sirius, withReadout(canopus, sky.Horizontal{Altitude: sky.Angle(math.NaN())})}, "the mount's altitude at Canopus is NaN°"},
		{"an azimuth that is no number", []plan.Sight{sirius, withReadout(canopus, sky.Horizontal{Azimuth: sky.Angle(math.Inf(1))})}, "the mount's azimuth at Canopus is +Inf; give"},
		{"a star that is down", []plan.Sight{sirius, sight("Polaris", 10*deg, 0)}, "Polaris stood 31° below the horizon at 2026-12-05 14:30 UTC; check which star it was"},
		{"another night", []plan.Sight{sirius, moved(canopus, 49*time.Hour)}, "the sight of Canopus is of 2026-12-07 15:30 UTC, more than a day from 2026-12-05 14:30 UTC; give sights of one night"},
		{"opposite stars", nearlyOpposite(frame, sirius, opposite), "nearly opposite, so the mount may be turned any way about the line between them"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := plan.FitAxis(frame, c.sights, plan.Sighting{})
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
			_, wrong := plan.Misidentified(frame, c.sights, plan.Sighting{}, catalog.Stars(2))
			assert.False(t, wrong, "what can't be fitted is not called a wrong star")
		})
	}
}

func renamed(s plan.Sight, name string) plan.Sight { s.Name = name; return s }

func withReadout(s plan.Sight, readout sky.Horizontal) plan.Sight { s.Readout = readout; return s }

func moved(s plan.Sight, by time.Duration) plan.Sight { s.At = s.At.Add(by); return s }

// nearlyOpposite waits for the star to set to 0.5° and sights it and the place across from it, which
// then stands at −0.5°: above the −1° that the horizon's dip and refraction leave.
func nearlyOpposite(frame *sky.Frame, s plan.Sight, opposite func(plan.Sight, sky.Angle, sky.Angle) plan.Sight) []plan.Sight {
	altitude := func(t time.Time) sky.Angle {
		return frame.Horizontal(frame.Fix(s.Star), t).Altitude - 0.5*sky.Degree
	}
	s.At = sky.Sample(altitude, frame.Middle(), frame.Middle().Add(12*time.Hour), 10*time.Minute).Crossings(0)[0].At
	across := opposite(s, 1*sky.Degree, s.Readout.Azimuth+179*sky.Degree)
	s.Readout.Altitude = 1 * sky.Degree
	return []plan.Sight{s, across}
}

// One star an hour later stands elsewhere: two sights of it serve if the sky has turned far enough.
func TestOneStarAtTwoTimesServes(t *testing.T) {
	place := sky.Site{Latitude: -31.95 * sky.Degree, Longitude: 115.86 * sky.Degree}
	at := time.Date(2026, 12, 5, 14, 30, 0, 0, time.UTC)
	frame := sky.NewFrame(place, at, 0)
	star, err := catalog.Find("Sirius")
	require.NoError(t, err)
	mount := plan.AxisFit{AzimuthZero: 33 * sky.Degree}
	mount.Axis.Tilt, mount.Axis.Toward = 4*sky.Degree, 200*sky.Degree
	var sights []plan.Sight
	for _, when := range []time.Time{at, at.Add(time.Hour)} {
		readout := mountReadout(frame.Direction(frame.Fix(star.Star), when), mount)
		sights = append(sights, plan.Sight{Name: "Sirius", Star: star.Star, At: when, Readout: readout})
	}
	fit, err := plan.FitAxis(frame, sights, plan.Sighting{})
	require.NoError(t, err)
	assert.InDelta(t, 4, fit.Axis.Tilt.Degrees(), 1e-6)     // made by the same places
	assert.InDelta(t, 200, fit.Axis.Toward.Degrees(), 1e-5) // the same, over the sine of the tilt
	assert.InDelta(t, 33, fit.AzimuthZero.Degrees(), 1e-6)
	// 14° apart: four times as bad as a right angle, and it says so.
	assert.Greater(t, fit.Spread.Major(), 3*plan.UsualCentring)
}

// The axis stands square on the base and leans to its low side.
func TestAxisFromLevel(t *testing.T) {
	const deg = sky.Degree
	for _, c := range []struct {
		name                string
		got                 [3]sky.Angle
		tilt, toward, known float64
	}{
		{"the south edge 2° too low", leaning(plan.AxisFromLevel(2*deg, 180*deg, 0.5*deg)), 2, 180, 0.5},
		{"a slope that falls the other way", leaning(plan.AxisFromLevel(-3*deg, 350*deg, 1*deg)), 3, 170, 1},
		{"level", leaning(plan.AxisFromLevel(0, 123*deg, 0.1*deg)), 0, 0, 0.1},
		{"an azimuth beyond the turn", leaning(plan.AxisFromLevel(1*deg, 370*deg, 0.1*deg)), 1, 10, 0.1},
	} {
		t.Run(c.name, func(t *testing.T) {
			for i, want := range []float64{c.tilt, c.toward, c.known} {
				assert.InDelta(t, want, c.got[i].Degrees(), 1e-9) // rounding
			}
		})
	}
}

// A plate tipped so that its south edge is low carries its normal to the south: by vectors.
func TestLowSideIsWhereTheAxisLeans(t *testing.T) {
	axis := plan.AxisFromLevel(2*sky.Degree, 180*sky.Degree, 0)
	normal := sky.MountAxis(axis.Tilt, axis.Toward)
	south := sky.Direction{Y: -1}
	// The edge of the plate that lies to the south: square to the normal, towards the south.
	edge := south.Plus(-south.Dot(normal), normal).Unit()
	assert.InDelta(t, -2, edge.Horizontal().Altitude.Degrees(), 1e-9)
}

func leaning(a kit.Axis) [3]sky.Angle { return [3]sky.Angle{a.Tilt, a.Toward, a.Uncertainty} }
