package cables_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/cables"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// noon begins the nights of these tests; hour counts from it.
var noon = time.Date(2026, 12, 5, 2, 30, 0, 0, time.UTC)

func hour(h float64) time.Time { return noon.Add(time.Duration(h * float64(time.Hour))) }

func deg(degrees float64) sky.Angle { return sky.Angle(degrees) * sky.Degree }

// course follows a place through a day over the example's site or another latitude.
func course(ra, dec float64, change func(*kit.Kit)) *plan.Course {
	k := kit.Example()
	k.Axis = kit.Axis{}
	if change != nil {
		change(&k)
	}
	frame := sky.NewFrame(k.Site.Place, hour(12), 0)
	target := kit.Target{Star: sky.Star{Place: sky.J2000{RA: deg(ra), Dec: deg(dec)}}}
	return plan.NewCourse(k, frame, plan.Span{From: noon, To: hour(24)}, target, k.Axis)
}

// integrated adds up the azimuth's rate, which package sky has in closed form, by the midpoint rule. Second by
// second that is good to 0.01° as long as the target stays a degree from the axis.
func integrated(c *plan.Course, ra, dec float64, k kit.Kit, span plan.Span) (by sky.Angle) {
	frame := sky.NewFrame(k.Site.Place, hour(12), 0)
	star := frame.Fix(sky.Star{Place: sky.J2000{RA: deg(ra), Dec: deg(dec)}})
	axis := sky.MountAxis(c.Axis.Tilt, c.Axis.Toward)
	for t := span.From; t.Before(span.To); t = t.Add(time.Second) {
		rate, _ := sky.AzimuthRate(frame.Pole(), frame.Direction(star, t.Add(time.Second/2)), axis)
		by += rate.Times(time.Second)
	}
	return by
}

func TestTheTrackingAgainstIntegratedAzimuths(t *testing.T) {
	for name, c := range map[string]struct {
		ra, dec, latitude, tilt, toward float64
	}{
		"north of the zenith":                {83.8, -5.4, -31.95, 0, 0},
		"south of the zenith":                {60, -45, -31.95, 0, 0},
		"circumpolar":                        {84.7, -69.1, -31.95, 0, 0},
		"near the pole":                      {200, -87, -31.95, 0, 0},
		"circumpolar in the north":           {40, 61, 52, 0, 0},
		"above the zenith in the north":      {60, 58, 52, 0, 0},
		"below the zenith in the north":      {60, 20, 52, 0, 0},
		"over a leaning axis":                {83.8, -5.4, -31.95, 7, 210},
		"between the zenith and a lean axis": {60, -36, -31.95, 7, 180},
		"from the equator":                   {60, 10, 0, 3, 90},
	} {
		change := func(k *kit.Kit) {
			k.Site.Place.Latitude = deg(c.latitude)
			k.Axis = kit.Axis{Tilt: deg(c.tilt), Toward: deg(c.toward)}
		}
		k := kit.Example()
		change(&k)
		course := course(c.ra, c.dec, change)
		for _, span := range []plan.Span{{From: hour(9), To: hour(12)}, {From: hour(11), To: hour(16.5)}, {From: hour(8), To: hour(17)}} {
			turn := course.AzimuthTurn(span)
			assert.InDelta(t, integrated(course, c.ra, c.dec, k, span).Degrees(), turn.By.Degrees(), 0.1, "%s, %s", name, span.Length())
			assert.LessOrEqual(t, turn.Least, min(0, turn.By), name)
			assert.GreaterOrEqual(t, turn.Most, max(0, turn.By), name)
			assert.True(t, turn.Sure, name)
		}
	}
}

func TestACircumpolarTargetUnwindsItself(t *testing.T) {
	c := course(84.7, -80, nil)
	day := c.AzimuthTurn(plan.Span{From: noon, To: noon.Add(23*time.Hour + 56*time.Minute + 4*time.Second)})
	assert.InDelta(t, 0, day.By.Degrees(), 0.01, "a sidereal day south of the zenith brings it back")
	assert.Less(t, (day.Most - day.Least).Degrees(), 30.0)
}

// With the axis level the azimuths that a target north of the zenith passes go from east over north to west:
// anticlockwise; south of it from east over south to west, clockwise.
func TestTheSideOfTheZenithIsTheWayRound(t *testing.T) {
	k := kit.Example()
	frame := sky.NewFrame(k.Site.Place, hour(12), 0)
	passage := func(dec float64, change func(*kit.Kit)) plan.AzimuthTurn {
		c := course(60, dec, change)
		highest := hour(8)
		for at := highest; at.Before(hour(17)); at = at.Add(time.Minute) {
			if c.Place(at).Altitude > c.Place(highest).Altitude {
				highest = at
			}
		}
		return c.AzimuthTurn(plan.Span{From: highest.Add(-2 * time.Hour), To: highest.Add(2 * time.Hour)})
	}
	zenith := frame.Site().Latitude.Degrees()
	assert.Less(t, passage(zenith+8, nil).By.Degrees(), -100.0)
	assert.Greater(t, passage(zenith-8, nil).By.Degrees(), 100.0)
	unsure := passage(zenith+1, func(k *kit.Kit) { k.Axis.Uncertainty = deg(3) })
	assert.False(t, unsure.Sure, "an axis known to 3° may lie on either side of a passage 1° away")
	assert.True(t, passage(zenith+8, func(k *kit.Kit) { k.Axis.Uncertainty = deg(3) }).Sure)
	leaning := passage(zenith+3, func(k *kit.Kit) { k.Axis.Tilt, k.Axis.Toward = deg(6), 0 })
	assert.Greater(t, leaning.By.Degrees(), 100.0, "an axis that leans north by 6° has it on its south side")
}

func TestTheShortestWay(t *testing.T) {
	for _, c := range []struct{ from, to, want float64 }{
		{0, 90, 90}, {0, 270, -90}, {350, 10, 370}, {-100, 350, -10}, {725, 350, 710}, {0, 180, 180}, {0, 181, -179},
	} {
		assert.InDelta(t, c.want, cables.Shortest(deg(c.from), deg(c.to)).Degrees(), 1e-9, "from %g to %g", c.from, c.to)
	}
}

func TestThreeHandOversWindTheCables(t *testing.T) {
	targets := [][2]float64{{60, -20}, {60, -45}, {100, -10}, {150, -60}}
	var legs []cables.Leg
	for i, target := range targets {
		from := hour(9 + 2*float64(i))
		legs = append(legs, cables.Leg{Course: course(target[0], target[1], nil), Span: plan.Span{From: from, To: from.Add(110 * time.Minute)}})
	}
	k := kit.Example()
	turns := cables.Wind(kit.Cables{Straight: deg(180)}, deg(180), legs)
	require.Len(t, turns, 4)
	at := deg(180) // added up apart: ways by the wrapped difference, tracking by the rate
	for i, turn := range turns {
		name := fmt.Sprint("hand-over ", i)
		c := legs[i].Course
		assert.InDelta(t, at.Degrees(), turn.Before.Degrees(), 0.2, name)
		at += (c.AzimuthAboutAxis(legs[i].From) - at).Signed()
		assert.InDelta(t, at.Degrees(), turn.Arrived.Degrees(), 0.2, name)
		assert.LessOrEqual(t, (turn.Arrived - turn.Before).Abs(), deg(180))
		assert.Equal(t, turn.Arrived >= turn.Before, turn.Clockwise(), name)
		at += integrated(c, targets[i][0], targets[i][1], k, legs[i].Span)
		assert.InDelta(t, at.Degrees(), turn.Left.Degrees(), 0.2, name)
		assert.InDelta(t, c.AzimuthAboutAxis(legs[i].To).Degrees(), turn.Left.Wrapped().Degrees(), 1e-6, "it points where the target is")
		assert.False(t, turn.Passes.OK, "without an end nothing is passed")
		assert.True(t, turn.Sure, name)
	}
}

func TestTheEndOfTheCables(t *testing.T) {
	c := course(60, -45, nil)
	leg := cables.Leg{Course: c, Span: plan.Span{From: hour(9), To: hour(15)}}
	free := cables.Wind(kit.Cables{}, 0, []cables.Leg{leg})[0]
	require.Greater(t, (free.Left - free.Arrived).Degrees(), 40.0, "it goes clockwise")
	end := free.Arrived + (free.Left-free.Arrived)/2
	short := cables.Wind(kit.Cables{To: &end}, 0, []cables.Leg{leg})[0]
	require.True(t, short.Passes.OK)
	at := short.Arrived + c.AzimuthTurn(plan.Span{From: leg.From, To: short.Passes.At}).By
	assert.InDelta(t, end.Degrees(), at.Degrees(), 0.02, "a second of tracking")
	assert.True(t, short.LongWay, "the other way round there is no end")
	assert.InDelta(t, 360, (short.Arrived - short.OtherWay()).Abs().Degrees(), 1e-9)
	low := deg(-100)
	both := cables.Wind(kit.Cables{From: &low, To: &end}, 0, []cables.Leg{leg})[0]
	assert.False(t, both.LongWay, "the other way round ends too soon")
	beyond := free.Arrived - deg(1)
	atOnce := cables.Wind(kit.Cables{To: &beyond}, 0, []cables.Leg{leg})[0]
	assert.Equal(t, sky.Event{At: leg.From, OK: true}, atOnce.Passes)
	assert.False(t, cables.Wind(kit.Cables{}, free.Arrived-deg(179), []cables.Leg{leg})[0].Sure, "as good as even")
}
