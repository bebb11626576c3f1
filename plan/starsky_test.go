package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// handmade is a sky of made-up stars over the example site late on the example night, without Moon and
// skyline, about an upright axis.
type handmade struct {
	kit   kit.Kit
	frame *sky.Frame
	axis  kit.Axis
	at    time.Time
	stars []catalog.Object
}

func newHandmade() *handmade {
	k := exampleKit()
	k.Horizon = kit.Horizon{}
	night := plan.NewNight(k, exampleDate)
	return &handmade{kit: k, frame: night.Frame, at: time.Date(2026, 12, 5, 13, 0, 0, 0, time.UTC)} // 23:30, the Moon is down
}

// add puts a star where it stands at the instant. Brightest first, as lists are.
func (h *handmade) add(name string, mag, altDeg, azDeg float64) {
	place := placeAt(h.frame, h.at, altaz(altDeg, azDeg))
	h.stars = append(h.stars, catalog.Object{ID: name, Names: []string{name}, Kind: catalog.Star, Type: "star",
		Star: sky.Star{Place: place}, Magnitude: catalog.Known{Value: mag, OK: true}})
}

func (h *handmade) sky() *plan.StarSky {
	return plan.NewStarSky(h.kit, h.frame, h.axis, h.at, h.stars)
}

// placeAt returns the J2000 place of a star that stands in a direction: hour angle and declination by
// Meeus eq. 13.5 backwards, then the difference from the apparent place taken off until it is gone.
func placeAt(frame *sky.Frame, at time.Time, d sky.Direction) sky.J2000 {
	φ := frame.Site().Latitude
	equatorial := sky.Direction{X: φ.Cos()*d.Z - φ.Sin()*d.Y, Y: -d.X, Z: φ.Sin()*d.Z + φ.Cos()*d.Y}.OfDate() // its RA is the hour angle, west +
	want := sky.OfDate{RA: (frame.SiderealTime(at) - equatorial.RA).Wrapped(), Dec: equatorial.Dec}
	guess := sky.J2000(want) // the place of date, to begin with
	for range 6 {
		got := frame.Apparent(frame.Fix(sky.Star{Place: guess}), at)
		guess.RA = (guess.RA + (want.RA - got.RA).Signed()).Wrapped()
		guess.Dec += want.Dec - got.Dec
	}
	return guess
}

func TestHandmadeStarsStandWhereTheyWerePut(t *testing.T) {
	h := newHandmade()
	for _, place := range [][2]float64{{20, 10}, {50, 100}, {75, 200}, {33, 300}, {5, 181}} {
		d := altaz(place[0], place[1])
		got := h.frame.Direction(h.frame.Fix(sky.Star{Place: placeAt(h.frame, h.at, d)}), h.at)
		require.Less(t, got.Separation(d).Arcseconds(), 0.5, "%v: what is left is the diurnal aberration, 0.3″", place)
	}
}

func brightStars(faintest float64) []catalog.Object { return catalog.Stars(faintest) }
