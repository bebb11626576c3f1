package advice_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Where all that is wanted fits one long run that begins later, the plan spares a rewind and waits: so does the advice,
// and it says one instant for that all the while. In a night driven by hand it said 22:55, then 20:51, and turned then.
func TestALaterStartThatSparesARewindIsWaitedFor(t *testing.T) {
	n := example(t, func(k *kit.Kit) {
		k.Site.Place, k.Site.Zone = sky.Site{Latitude: 47.3333 * sky.Degree, Longitude: 15.1667 * sky.Degree, ElevationMetres: 820}, time.UTC
		k.Horizon = kit.NewHorizon(nil)
		k.Axis = kit.Axis{Tilt: 0.6 * sky.Degree, Toward: 40 * sky.Degree, Uncertainty: 1.5 * sky.Degree}
		d := &k.Derotator
		d.Min, d.Max, d.StopsAnywhere, d.Sense = -32*sky.Degree, 32*sky.Degree, false, 1
		d.LargestRate, d.RewindSpeed = 90*sky.DegreePerHour, 0.4*sky.DegreePerSecond
		k.Mount.Floor, k.Mount.Ceiling = 20*sky.Degree, 80*sky.Degree
		k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: 180 * time.Second, Count: 140}}
		k.Targets = []kit.Target{{Name: "NGC 281", Star: sky.Star{Place: sky.J2000{RA: 13.246 * sky.Degree, Dec: 56.622 * sky.Degree}}}}
	})
	n.date = plan.Date{Year: 2026, Month: time.December, Day: 1}
	at := func(hour, minute int) time.Time { return time.Date(2026, 12, 1, hour, minute, 0, 0, time.UTC) }
	n.say(at(16, 27), checklist.Rewound{To: 32 * sky.Degree})
	n.say(at(16, 51), checklist.TurnOn{Angle: degrees(32)})
	n.say(at(16, 56), checklist.GuidingOn{})
	n.say(at(17, 1), checklist.StartSubs{})
	n.say(at(18, 19), checklist.StopSubs{})
	for now := at(18, 30); now.Before(at(21, 15)); now = now.Add(10 * time.Minute) {
		m, a := n.at(now), n.advice(now)
		require.Len(t, m.Ahead().Runs, 1, "the plan begins late")
		require.Equal(t, advice.Wait, a.Do, "at %s", now)
		assert.WithinDuration(t, m.Next().Begins.Add(-m.Next().Takes-n.kit.Subs.BeforeTurn()), *a.From, time.Minute, "at %s", now)
	}
}
