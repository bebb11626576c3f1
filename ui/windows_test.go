package ui_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui"
	"duskhand/ui/testdata/clocks"
)

// at opens a night of one's own at an instant, on the Run screen, with nothing said yet.
func at(t *testing.T, when time.Time, change func(*kit.Kit)) *session {
	k := kit.Example()
	k.Example = false
	if change != nil {
		change(&k)
	}
	s := &session{t: t, now: when}
	path := t.TempDir() + "/journal.db"
	startWith(s, 100, 30, func(c *ui.Config) {
		c.Kit, c.JournalPath, c.Clock = k, path, clocks.Led(func() time.Time { return s.now })
	})
	return s.press("1")
}

// local is a time of the example's night by the clock at its site, ACDT.
func local(hour, minute int) time.Time {
	day := 5
	if hour < 12 {
		day = 6
	}
	return time.Date(2026, 12, day, hour, minute, 0, 0, time.FixedZone("ACDT", 10*3600+1800)).UTC()
}

// NGC 1365 goes into the keyhole at 22:54 at the earliest and is out of it at 00:40 at the latest, for the axis is known to 1°. Subs begun before end before it; going
// on into it is called out, whatever a limit behind it says. Then there is nothing to say until the stage, which has
// gone on turning, is rewound in time for the next window.
func TestTheKeyholeOnTheRunScreen(t *testing.T) {
	s := at(t, local(22, 30), func(k *kit.Kit) { k.Targets = k.Targets[1:] })
	s.press("space").wait(time.Minute).press("space")
	s.sees("until the last sub is done, at 22:5", "the window closes at 22:54 (keyhole)", "stop after sub")
	s.seesNot("until the rewind")
	s.wait(19 * time.Minute).sees("Soon: stop after sub")
	s.wait(4 * time.Minute)
	assert.Contains(t, s.text(), "The window has closed (keyhole)")
	assert.Equal(t, "\a\a\a", s.out.String(), "warnings that the keyhole comes and that the run ends, and a call")
	s.wait(5*time.Minute).sees("The window has closed (keyhole)", "space subs stopped").seesNot("until the rewind")
	s.press("space").sees("until NGC 1365 can be used, at 00:40 (keyhole until then)", "Nothing to do until 00:3", "(keyhole)").seesNot("space ")
	s.wait(time.Hour).sees("can be used, at 00:40", "Nothing to do until 00:3").seesNot("REWIND", "space ")
	s.now = local(0, 37)
	s.send(s.model.Tick())
	s.sees("Use the pause: rewind to −15", "space rewound to −15")
	s.wait(time.Minute).press("space").sees("can be used, at 00:40").seesNot("space ")
	s.now = local(0, 41)
	s.send(s.model.Tick())
	s.sees("space subs started")
}

// The last window's end is called as such; after it the night is over and nothing else is asked for.
func TestTheEndOfTheNight(t *testing.T) {
	s := at(t, local(3, 40), nil)
	s.press("space").wait(time.Minute).press("space").sees("until the last sub is done", "the window closes at 04:12 (twilight)")
	s.wait(32 * time.Minute).sees("The window has closed (twilight): stop the subs")
	s.press("space").sees("the last window of NGC 2070 is over: twilight", "space derotator off")
	s.press("space").sees("space done: Stop guiding and the camera program")
}

// All the wanted subs: it is told, and no rewind is called for.
func TestAllWantedSubsAreTaken(t *testing.T) {
	s := at(t, local(22, 0), func(k *kit.Kit) { k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 20}} })
	s.press("space").wait(time.Minute).press("space").sees("until all wanted subs are taken, at 22:2")
	s.wait(30 * time.Minute).sees("All wanted subs are taken").seesNot("Rewind to")
	s.press("space").sees("NGC 2070 is complete: NGC 1365 gives 16 min until 22:53", "Go to NGC 1365", "space target NGC 1365")
	s.press("space").sees("NGC 1365, Great Barred Spiral Galaxy").seesNot("is complete")
}

// A stage that stops at its ends only, where no sub fits from either: the screen says when one does, and
// does not ask for rewinds that buy nothing.
func TestNoRewindThatBuysNothing(t *testing.T) {
	k := func(k *kit.Kit) {
		k.Site.Place = sky.Site{Latitude: 51.5 * sky.Degree}
		k.Site.Zone = time.UTC
		k.Derotator.Min, k.Derotator.Max, k.Derotator.StopsAnywhere = -20*sky.Degree, 20*sky.Degree, false
		k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: 3 * time.Minute, Count: 500}}
		k.Horizon = kit.NewHorizon(nil)
		k.Targets = []kit.Target{{Name: "M 31", Star: sky.Star{Place: sky.J2000{RA: 10.685 * sky.Degree, Dec: 41.269 * sky.Degree}}}}
	}
	s := at(t, time.Date(2026, 10, 25, 18, 50, 0, 0, time.UTC), k)
	s.press("space").wait(time.Minute).press("space")
	for range 40 {
		s.pass(5*time.Minute).seesNot("good for 0 s", ", 0 s to turn")
		s.press("space") // whatever the screen proposes
	}
}

// What is said to be turned to is what is written down and counted with: to a tenth of a degree.
func TestSaidAnglesAreTheOnesCounted(t *testing.T) {
	s := at(t, local(23, 52), nil)
	s.press("space", "r")
	proposed := regexp.MustCompile(`rewound to \(enter: (\S+)\)`).FindStringSubmatch(s.text())
	require.Len(t, proposed, 2, s.text())
	s.press("enter").sees(proposed[1]+", 1", "rewound to "+strings.TrimSuffix(proposed[1], ".0°"))
}

// A reading far from what was computed is taken, and told.
func TestAReadingFarOffIsTold(t *testing.T) {
	s := at(t, local(22, 0), nil)
	s.press("space").wait(10*time.Minute).press("a", "-", "9", "enter").sees("from what was computed: read it again, or undo it")
}

// Who begins subs before it is dark is told so, once, and they are counted apart; as it gets dark they count.
func TestSubsBeforeDarkAreToldAndCountedApart(t *testing.T) {
	s := at(t, local(21, 36), nil).wait(40 * time.Second)
	s.press("space", "s").sees("Noted; but:", "It is not dark before 21:38: subs until then are not counted.")
	s.wait(90*time.Second).sees("1 in twilight, not counted", "L 0/120")
	s.wait(2 * time.Minute).sees("1 in twilight, not counted").seesNot("L 0/120")
}
