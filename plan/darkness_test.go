package plan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// june is the example's kit at 52.2° north, where the Sun sinks to −14.4° at midsummer.
func june(darkSun, darkSunLine sky.Angle) kit.Kit {
	k := kit.Example()
	k.Site.Place = sky.Site{Latitude: 52.2 * sky.Degree}
	k.Site.DarkSun, k.Site.DarkSunLine = darkSun, darkSunLine
	return k
}

var midsummer = plan.Date{Year: 2026, Month: time.June, Day: 20}

func TestANightThatIsNeverDarkSaysWhatItReaches(t *testing.T) {
	n := plan.NewNight(june(-18*sky.Degree, -18*sky.Degree), midsummer)
	assert.Empty(t, n.Dark)
	possible, ok := n.DarkestPossible()
	require.True(t, ok)
	assert.Equal(t, -12*sky.Degree, possible.Below)
	assert.Equal(t, []plan.Span{{From: n.Twilight.NauticalDusk.At, To: n.Twilight.NauticalDawn.At}}, possible.Spans)
	north := june(-18*sky.Degree, -18*sky.Degree)
	north.Site.Place.Latitude = 65 * sky.Degree // the Sun sinks to −1.6°
	_, ok = plan.NewNight(north, midsummer).DarkestPossible()
	assert.False(t, ok)
}

func TestTheKitsDarknessShapesTheWindows(t *testing.T) {
	k := june(-12*sky.Degree, -9*sky.Degree)
	target, err := k.FindTarget("M 13")
	require.NoError(t, err)
	n := plan.NewNight(k, midsummer)
	require.Len(t, n.Dark, 1)
	windows := n.Course(target, k.Axis).Windows()
	require.Len(t, windows, 1, "high all night")
	assert.Equal(t, n.Dark[0], windows[0].Span)
	assert.InDelta(t, -12, n.Frame.Sun(windows[0].From).Altitude.Degrees(), 1e-5)
	// The same target through a line filter alone.
	k.Subs.Filters = append(k.Subs.Filters, kit.Filter{Name: "Ha", Kind: kit.LineFilter, Line: "Hα", CentreNM: 656.28, Exposure: time.Minute, Count: 10})
	target.Filters = []kit.TargetFilter{{Name: "Ha"}}
	n = plan.NewNight(k, midsummer)
	windows = n.Course(target, k.Axis).Windows()
	require.Len(t, windows, 1)
	assert.InDelta(t, -9, n.Frame.Sun(windows[0].From).Altitude.Degrees(), 1e-5)
	assert.InDelta(t, -12, n.Frame.Sun(n.Dark[0].From).Altitude.Degrees(), 1e-5, "the night is the other filters'")
}
