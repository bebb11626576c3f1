package ui_test

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/clock"
)

func TestExampleOpensInTheMiddleOfARun(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.sees("EXAMPLE NIGHT", "Saltbush Flat", "23:14:00 ACDT", "12:44:00 UT", "NGC 2070, Tarantula Nebula",
		"until the rewind, at 23:30", "limit 23:33, early 23:32", "rewind after sub 61", "Nothing to do. Look again at 23:25.")
}

// The whole loop of a rewind, one key, as the operator does it in the dark.
func TestTheLoopOfARewind(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.wait(12 * time.Minute).sees("Soon: after sub 61 stop guiding and rewind to −16°.")
	assert.Equal(t, "\a", s.out.String(), "one bell, five minutes before, as the kit says")
	s.wait(210 * time.Second).sees("Let it finish. Then rewind to −16°.")
	s.wait(time.Minute).sees("now, before the limit at 23:33", "Stop the subs, stop guiding")
	assert.Equal(t, "\a\a", s.out.String(), "a second bell at the call, and no more")
	s.press("space").sees("no subs are being taken", "Rewind to −16°", "space rewound to −16°")
	s.wait(time.Minute).press("space").sees("rewound at 23:31", "space subs started", "start the subs")
	s.wait(30*time.Second).press("space").sees("sub 1 has", "Nothing to do. Look again at")
	assert.Equal(t, "\a\a", s.out.String())
}

// Not acting on the call is told as what it is: the derotator stands, and the field turns.
func TestNoRewindEndsAtTheLimit(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.wait(20 * time.Minute).sees("the derotator has reached its limit at 23:33: the field turns")
}

func TestUndoTakesBackAndSaysWhat(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.sees("u undo: subs started, 21:38")
	s.press("s").sees("no subs are being taken", "u undo: subs stopped, 23:14")
	s.press("u").sees("rewind after sub 61")
	s.press("y").sees("no subs are being taken")
}

func TestAReadingMovesTheCountdown(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.press("a").sees("the derotator shows: _")
	s.press("9", "0", "enter").sees("+90.0° is outside the travel, −16° to +16°")
	s.press("esc", "a", "1", "0", ".", "9", "enter").sees("read at 23:14", "+10.9°")
	s.seesNot("limit 23:33")
	s.press("a", "x", "enter").sees("\"x\"").press("esc").seesNot("the derotator shows")
}

func TestRewoundAsksForAnAngleAndProposesOne(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.press("r").sees("rewound to (enter: −16.0°): _")
	s.press("-", "1", "2", "enter").sees("−12.0°", "rewound at 23:14")
	s.press("r", "enter").sees("−16.0°,")
}

func TestNextTargetKeepsTheAngle(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.press("t").sees("subs are being taken; say that they have stopped")
	s.press("s", "t").sees("NGC 1365")
	s.seesNot("ANGLE")
	s.press("t").sees("NGC 2070")
}

// Off, then on again where it was left.
func TestDerotatorOffAndOn(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.press("o").sees("the derotator is off")
	s.press("o").sees("derotator on at (enter: −16.0°)").press("enter").sees("turned on at 23:14")
}

func TestNightScreenAndHelp(t *testing.T) {
	s := start(t, 120, 40, nil)
	s.press("tab").sees("of subs still to come tonight in 5 runs", "as planned at dusk", "planned, rewind", "fainter curve: the Moon")
	s.press("?").sees("Never point an unfiltered telescope or finder at the Sun.", "undo what was said last")
	s.press("x").sees("as planned at dusk")
	s.press("tab", "tab", "tab").sees("until the rewind")
	s.press("g").seesNot("of subs to come").sees("EXAMPLE")
	s.press("q")
	assert.True(t, s.quit)
}

// What is said is on the disk before the screen says so, and comes back when the program is started
// again: here by the same night opened twice.
func TestTheNightSurvivesTheProgram(t *testing.T) {
	k := kit.Example()
	k.Example = false
	k.Site.Name = "Own Garden"
	path := filepath.Join(t.TempDir(), "journal.db")
	own := func(c *ui.Config) { c.Kit, c.JournalPath, c.KitPath = k, path, "kit.toml" }
	s := start(t, 80, 24, own)
	s.sees("Own Garden", "the derotator is off", "space derotator on at −16°")
	s.press("space").sees("turned on at 23:14", "space subs started")
	s.press("space").sees("sub 1 has 60 s left")
	events, err := readAll(path)
	require.NoError(t, err)
	require.Len(t, events, 3, "opened, turned on, subs started: on the disk while the program runs")

	second := start(t, 80, 24, own)
	second.sees("FOLLOWING", "turned on at 23:14", "sub 1 has 60 s left")
	second.press("space").sees("FOLLOWING") // a follower says nothing
	s.wait(61 * time.Second).press("s")
	second.now = s.now
	second.send(second.model.Tick())
	second.sees("no subs are being taken", "L 1/120")
}

func readAll(path string) ([]journal.Event, error) {
	j, err := journal.OpenReader(path)
	if err != nil {
		return nil, err
	}
	events, err := j.Events("2026-12-05")
	return events, errors.Join(err, j.Close())
}

// A journal that can't be opened is said at once, and the night goes on in memory.
func TestNoPlaceForTheJournal(t *testing.T) {
	k := kit.Example()
	k.Example = false
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, "/dev/null/nowhere/journal.db" })
	s.sees("the night is kept in memory")
	s.press("o", "enter").sees("turned on at 23:14")
}

// A night recorded in the journal is replayed with --at: what was said comes when its time comes, and
// nothing that is said in a replay reaches the disk.
func TestReplayOfARecordedNight(t *testing.T) {
	k := kit.Example()
	k.Example = false
	path := filepath.Join(t.TempDir(), "journal.db")
	own := func(c *ui.Config) { c.Kit, c.JournalPath, c.KitPath = k, path, "kit.toml" }
	live := start(t, 80, 24, own)
	live.press("space").wait(30*time.Second).press("space").wait(3*time.Minute).press("s", "u")
	before, err := readAll(path)
	require.NoError(t, err)

	replay := start(t, 80, 24, func(c *ui.Config) {
		own(c)
		c.Clock = clock.Replay(opened.Add(10*time.Second), 60).WithoutTicks()
	})
	replay.sees("REPLAY", "turned on at 23:14", "no subs are being taken")
	deadline := time.Now().Add(20 * time.Second)
	for !strings.Contains(replay.text(), "rewind after sub") {
		require.True(t, time.Now().Before(deadline), "the subs start again: %s", replay.text())
		replay.send(replay.model.Tick())
	}
	after, err := readAll(path)
	require.NoError(t, err)
	assert.Equal(t, before, after)
}

// At the site's noon another night begins, with nothing said in it.
func TestAnotherNightBeginsAtNoon(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.now = plan.NewNight(kit.Example(), plan.Date{Year: 2026, Month: 12, Day: 6}).Span.From.Add(time.Minute)
	s.send(s.model.Tick())
	s.sees("until NGC 2070 is clear of: twilight").seesNot("turned on")
}

func TestClockThatJumpsIsTold(t *testing.T) {
	// A led clock has no monotonic reading: forwards and backwards it only shows another time, and the
	// countdown follows. The difference between the two readings is tried in the clock's own test.
	s := start(t, 80, 24, nil)
	s.now = s.now.Add(-5 * time.Minute)
	s.send(s.model.Tick())
	s.sees("23:09:00 ACDT")
	s.now = s.now.Add(10 * time.Minute)
	s.send(s.model.Tick())
	s.sees("23:19:00 ACDT", "until the rewind, at 23:30")
}
