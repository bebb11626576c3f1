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
	"duskhand/sky/catalog"
)

// dusk is a site at an instant with the stars that one might centre there.
type dusk struct {
	name  string
	frame *sky.Frame
	up    []catalog.Object // V ≤ 2.5, 15° to 80° high
}

const candidatesTo = 2.5

// dusks returns sites of both hemispheres and the equator, at the four seasons.
func dusks() []dusk {
	var all []dusk
	for _, site := range []struct {
		name               string
		latitude, longitud float64
	}{
		{"Perth", -31.95, 115.86}, {"Punta Arenas", -53.16, -70.91}, {"Quito", -0.18, -78.47},
		{"Nairobi", -1.29, 36.82}, {"Madrid", 40.42, -3.70}, {"Oslo", 59.91, 10.75},
	} {
		for _, month := range []time.Month{time.March, time.June, time.September, time.December} {
			place := sky.Site{Latitude: sky.Angle(site.latitude) * sky.Degree, Longitude: sky.Angle(site.longitud) * sky.Degree}
			at := sky.SolarNoon(place, 2026, month, 21).Add(8 * time.Hour)
			d := dusk{name: site.name + " in " + month.String(), frame: sky.NewFrame(place, at, 0)}
			for _, star := range catalog.Stars(candidatesTo) {
				if alt := d.altitude(star); alt > 15*sky.Degree && alt < 80*sky.Degree {
					d.up = append(d.up, star)
				}
			}
			all = append(all, d)
		}
	}
	return all
}

func (d dusk) direction(star catalog.Object) sky.Direction {
	return d.frame.Direction(d.frame.Fix(star.Star), d.frame.Middle())
}

func (d dusk) altitude(star catalog.Object) sky.Angle { return d.direction(star).Horizontal().Altitude }

// drawn returns n different stars, each 25° to 150° from the others.
func (d dusk) drawn(random *rand.Rand, n int) []catalog.Object {
	var stars []catalog.Object
next:
	for len(stars) < n {
		star := d.up[random.IntN(len(d.up))]
		for _, other := range stars {
			if sep := d.direction(star).Separation(d.direction(other)); sep < 25*sky.Degree || sep > 150*sky.Degree {
				continue next
			}
		}
		stars = append(stars, star)
	}
	return stars
}

// sighted returns sights named for stars while those in taken stand on the cross, 2′ of noise per axis.
func (d dusk) sighted(random *rand.Rand, named, taken []catalog.Object) []plan.Sight {
	mount := plan.AxisFit{AzimuthZero: sky.Angle(random.Float64()) * sky.Turn}
	mount.Axis = kit.Axis{Tilt: sky.Angle(math.Abs(random.NormFloat64())) * 3 * sky.Degree, Toward: sky.Angle(random.Float64()) * sky.Turn}
	mount.Axis.Tilt = min(mount.Axis.Tilt, 10*sky.Degree)
	var sights []plan.Sight
	for i := range named {
		readout := mountReadout(d.direction(taken[i]), mount)
		sights = append(sights, plan.Sight{Name: named[i].Name(), Star: named[i].Star, At: d.frame.Middle(), Readout: readout})
	}
	return shaken(random, sights)
}

// mistaken returns another star no further than farthest from star that is as bright to 1.5 magnitudes and
// stands apart from the other stars; ok is false when there is none.
func (d dusk) mistaken(random *rand.Rand, star catalog.Object, farthest sky.Angle, stars []catalog.Object) (wrong catalog.Object, ok bool) {
	var near []catalog.Object
next:
	for _, other := range d.up {
		sep := d.direction(star).Separation(d.direction(other))
		if sep < 2*sky.Degree || sep > farthest || math.Abs(star.Magnitude.Value-other.Magnitude.Value) > 1.5 {
			continue
		}
		for _, taken := range stars {
			if d.direction(taken).Separation(d.direction(other)) < 2*sky.Degree {
				continue next
			}
		}
		near = append(near, other)
	}
	if len(near) == 0 {
		return catalog.Object{}, false
	}
	return near[random.IntN(len(near))], true
}

// Honest sights with 2′ of noise are never called wrong, whatever the site, season, stars and tilt.
func TestHonestSightsRaiseNoAlarm(t *testing.T) {
	const seed, trials = 11, 200
	random := rand.New(rand.NewPCG(seed, 0))
	candidates := catalog.Stars(candidatesTo)
	for _, d := range dusks() {
		for i := range trials {
			stars := d.drawn(random, 2+i%2)
			sights := d.sighted(random, stars, stars)
			suspicion, wrong := plan.Misidentified(d.frame, sights, plan.Sighting{}, candidates)
			require.False(t, wrong, "%s, seed %d, trial %d: %+v", d.name, seed, i, suspicion)
		}
	}
}

// counted is how a set of trials with one wrong star went.
type counted struct{ all, found, first, among, sight, wronglyClear int }

// The least shares are two or three of a hundred below the worst of seeds 1 to 5, which were within 1 %
// of each other.
func TestWrongStarIsNamed(t *testing.T) {
	const seed, trials = 12, 60
	for _, c := range []struct {
		name                string
		stars               int
		farthest            sky.Angle // of the wrong star from the right one
		found, first, clear float64   // least shares noticed and named first; largest share called clear and yet wrong
	}{
		{"two sights, a star within 25°", 2, 25 * sky.Degree, 0.96, 0.93, 0.01},
		{"two sights, any star that is up", 2, 180 * sky.Degree, 0.97, 0.94, 0.01},
		{"three sights, a star within 25°", 3, 25 * sky.Degree, 0.99, 0.96, 0.01},
		{"three sights, any star that is up", 3, 180 * sky.Degree, 0.99, 0.96, 0.01},
	} {
		t.Run(c.name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(seed, uint64(c.stars)))
			var n counted
			for _, d := range dusks() {
				for range trials {
					n.try(t, random, d, c.stars, c.farthest)
				}
			}
			share := func(k int) float64 { return float64(k) / float64(n.all) }
			t.Logf("seed %d, %d trials: noticed %.1f %%, star named first %.1f %%, among the suspects %.1f %%, sight named %.1f %%, clear but wrong %.1f %%",
				seed, n.all, 100*share(n.found), 100*share(n.first), 100*share(n.among), 100*share(n.sight), 100*share(n.wronglyClear))
			assert.Greater(t, n.all, 1000)
			assert.GreaterOrEqual(t, share(n.found), c.found, "seed %d: noticed", seed)
			assert.GreaterOrEqual(t, share(n.first), c.first, "seed %d: named first", seed)
			assert.LessOrEqual(t, share(n.wronglyClear), c.clear, "seed %d: clear but wrong", seed)
		})
	}
}

func (n *counted) try(t *testing.T, random *rand.Rand, d dusk, stars int, farthest sky.Angle) {
	named := d.drawn(random, stars)
	which := random.IntN(stars)
	wrong, ok := d.mistaken(random, named[which], farthest, named)
	if !ok {
		return
	}
	taken := append([]catalog.Object(nil), named...)
	taken[which] = wrong
	n.all++
	suspicion, found := plan.Misidentified(d.frame, d.sighted(random, named, taken), plan.Sighting{}, catalog.Stars(candidatesTo))
	if !found {
		return
	}
	n.found++
	if suspicion.Sight == which {
		n.sight++
	}
	for i, suspect := range suspicion.Suspects {
		if suspect.Sight == which && suspect.Other == which && suspect.Taken.ID == wrong.ID {
			n.among++
			if i == 0 {
				n.first++
			}
		}
	}
	if len(suspicion.Suspects) > 0 && suspicion.Clear && suspicion.Suspects[0].Taken.ID != wrong.ID {
		n.wronglyClear++
	}
}

// Two names the wrong way round keep the separation: only the lean they ask for gives them away.
func TestExchangedNamesAreNamed(t *testing.T) {
	const seed, trials = 13, 30
	random := rand.New(rand.NewPCG(seed, 0))
	found, first, all := 0, 0, 0
	for _, d := range dusks() {
		for range trials {
			named := d.drawn(random, 2)
			suspicion, wrong := plan.Misidentified(d.frame, d.sighted(random, named, []catalog.Object{named[1], named[0]}), plan.Sighting{}, catalog.Stars(candidatesTo))
			all++
			if wrong {
				found++
				if len(suspicion.Suspects) > 0 && suspicion.Suspects[0].Other != suspicion.Suspects[0].Sight {
					first++
				}
			}
		}
	}
	t.Logf("seed %d: %d exchanges, %d noticed, %d named first", seed, all, found, first)
	// Stars that stand either side of the zenith and alike can't be told; 97 % were noticed and all of these
	// named when this was written.
	assert.Greater(t, float64(found), 0.94*float64(all), "seed %d", seed)
	assert.Greater(t, float64(first), 0.97*float64(found), "seed %d", seed)
}

// A planet is no candidate: of three sights the odd one is named all the same, and nothing else is blamed.
func TestSightOfNoStarIsLeftOut(t *testing.T) {
	const seed = 14
	random := rand.New(rand.NewPCG(seed, 0))
	d := dusks()[0]
	named := d.drawn(random, 3)
	sights := d.sighted(random, named, named)
	sights[1].Readout.Altitude -= 6 * sky.Degree
	sights[1].Readout.Azimuth += 9 * sky.Degree
	suspicion, wrong := plan.Misidentified(d.frame, sights, plan.Sighting{}, nil)
	require.True(t, wrong)
	assert.Equal(t, 1, suspicion.Sight)
	assert.Empty(t, suspicion.Suspects)
	assert.Greater(t, suspicion.Fit.Misfit.Degrees(), 1.0)
}

func BenchmarkFitAxis(b *testing.B) {
	d, random := dusks()[0], rand.New(rand.NewPCG(2, 0))
	named := d.drawn(random, 3)
	sights := d.sighted(random, named, named)
	for b.Loop() {
		if _, err := plan.FitAxis(d.frame, sights, plan.Sighting{}); err != nil {
			b.Fatal(err)
		}
	}
}

// Three sights, one wrong, against all stars to V 2.5.
func BenchmarkMisidentified(b *testing.B) {
	d, random := dusks()[0], rand.New(rand.NewPCG(2, 0))
	named := d.drawn(random, 3)
	wrong, _ := d.mistaken(random, named[0], 180*sky.Degree, named)
	sights := d.sighted(random, named, []catalog.Object{wrong, named[1], named[2]})
	candidates := catalog.Stars(candidatesTo)
	for b.Loop() {
		if _, found := plan.Misidentified(d.frame, sights, plan.Sighting{}, candidates); !found {
			b.Fatal("the wrong star went unnoticed")
		}
	}
}
