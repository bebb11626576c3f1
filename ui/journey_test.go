package ui_test

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/testdata/clocks"
)

func TestExampleOpensInTheMiddleOfARun(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.sees("EXAMPLE NIGHT", "Saltbush Flat", "23:14:00 ACDT", "12:44:00 UT", "NGC 2070, Tarantula Nebula",
		"until the rewind, at 23:30", "limit 23:33, early 23:32", "rewind after sub 61", "Nothing to do. Look again at 23:25.")
}

// The first frame does not wait for the journal.
func TestFirstFrameDoesNotWaitForTheFile(t *testing.T) {
	model, _ := ui.New(ui.Config{Kit: kit.Example(), Clock: clocks.Fixed(opened), JournalPath: "/nowhere"}).Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	view := plain(model.View())
	assert.Contains(t, view, "EXAMPLE NIGHT")
	assert.Contains(t, view, "reading the night")
}

// Until the derotator is on, space goes through the checklist on the screens that help with it; it does
// not say that the derotator is on when a star is meant.
func TestSpaceFollowsTheChecklistBeforeTheRuns(t *testing.T) {
	s := at(t, local(19, 0), nil)
	s.press("tab", "tab").sees("space done: See that forecast and sky promise")
	s.press("space").sees("space target NGC 2070")
	s.press("space").sees("space done: Read the plan")
}

// The whole loop of a rewind, one key, as the operator does it in the dark.
func TestTheLoopOfARewind(t *testing.T) {
	s := start(t, 80, 24, nil)
	s.wait(12 * time.Minute).sees("Soon: after sub 61 stop guiding and rewind to −16°.")
	assert.Equal(t, "\a", s.out.String(), "one bell, five minutes before, as the kit says")
	s.wait(210 * time.Second).sees("Let it finish. Then rewind to −16°.")
	s.wait(time.Minute).sees("now, before the limit at 23:33", "Stop the subs, stop guiding")
	assert.Equal(t, "\a\a", s.out.String(), "a second bell at the call, and no more")
	s.press("space").sees("no subs are being taken", "Read the thermometer; focus again now", "space done: Read the thermometer")
	s.press("space").sees("Rewind to −16°", "space rewound to −16°")
	s.wait(time.Minute).press("space").sees("rewound at 23:31", "See with your own eyes that the derotator turns")
	s.press("space").sees("back to its place on the chip", "space re-centred")
	s.press("space").sees("See that a correction moves the guide star back", "space star came back")
	s.press("space").sees("Start guiding", "space guiding on")
	s.press("space").sees("space subs started", "Start the subs")
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
	s.sees("u undo: air 16.2 °C, 23:08")
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
	s.press("o").sees("subs are being taken; derotator off all the same").press("esc").sees("until the rewind")
	s.press("o", "enter").sees("the derotator is off", "stands here, off", "Stop guiding and say so; then rewind", "space guiding off")
	s.press("space").sees("space rewound to −16°")
	s.press("o").sees("turned on at 23:14", "+10.3°") // as it stands, after a pause
	s.press("o").press("space").sees("space derotator on at −16°").press("space").sees("−16°", "turned on at 23:14")
}

func TestNightScreenAndHelp(t *testing.T) {
	s := start(t, 120, 40, nil)
	s.press("tab").sees("of subs still to come tonight in 4 runs", "as planned at dusk", "planned, rewind", "the fainter curve is the Moon's")
	s.press("?").sees("Never point an unfiltered telescope or finder at the Sun.", "undo what was said last")
	s.press("x").sees("as planned at dusk")
	s.press("1").sees("until the rewind")
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
	s.sees("steps of this stage left").press("1")
	s.sees("Own Garden", "the derotator is off", "space derotator on at −16°")
	s.press("space").sees("turned on at 23:14", "space subs started")
	s.press("space").sees("sub 1 has 60 s left")
	events, err := readAll(path)
	require.NoError(t, err)
	require.Len(t, events, 3, "opened, turned on, subs started: on the disk while the program runs")

	second := start(t, 80, 24, own)
	second.sees("another duskhand writes this night").press("enter")
	second.sees("FOLLOWING", "turned on at 23:14", "sub 1 has 60 s left")
	second.press("space").sees("FOLLOWING", "w writes here instead").press("esc") // a follower says nothing
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
	s.sees("the night is kept in memory until the journal can be opened")
	s.press("tab", "o", "enter").sees("turned on at 23:14", "the night is kept in memory")
}

// When the journal can be opened again everything said meanwhile goes there, with undos that undo the
// right thing; what had been on the disk before was known all the time.
func TestTheNightComesBackFromMemory(t *testing.T) {
	k := kit.Example()
	k.Example = false
	k.Axis.Uncertainty = 0 // what knowing it better is worth is found aside, and need not be on both screens yet
	folder := filepath.Join(t.TempDir(), "state")
	path := filepath.Join(folder, "journal.db")
	own := func(c *ui.Config) { c.Kit, c.JournalPath = k, path }
	require.NoError(t, start(t, 120, 40, own).press("tab", "space").model.Close()) // the derotator is on
	// The journal's own file can be read, but nothing be written beside it: the lock's place is taken.
	require.NoError(t, os.Remove(path+".lock"))
	require.NoError(t, os.Mkdir(path+".lock", 0o700))
	s := start(t, 120, 40, own)
	s.sees("the night is kept in memory", "turned on at 23:14")
	s.press("n", "a", "enter", "n", "b", "enter", "u", "s").sees("sub 1 has")
	s.press("u", "u", "u").sees("the derotator is off") // back to what was on the disk, and before
	s.press("y").sees("turned on at 23:14")
	require.NoError(t, os.Remove(path+".lock"))
	s.wait(12*time.Second).sees("the journal can be written again", "turned on at 23:14")
	s.press("u").seesNot("the night is kept in memory")
	before := s.press("esc").text()
	require.NoError(t, s.model.Close())
	events, err := readAll(path)
	require.NoError(t, err)
	assert.Greater(t, len(events), 9)
	again := start(t, 120, 40, own)
	again.now = s.now
	again.send(again.model.Tick())
	assert.Equal(t, before, again.press("tab", "esc").text(), "the night on the disk is the one that was shown")
}

// A night recorded in the journal is replayed with --at: what was said comes when its time comes, and
// nothing that is said in a replay reaches the disk.
func TestReplayOfARecordedNight(t *testing.T) {
	k := kit.Example()
	k.Example = false
	path := filepath.Join(t.TempDir(), "journal.db")
	own := func(c *ui.Config) { c.Kit, c.JournalPath, c.KitPath = k, path, "kit.toml" }
	live := start(t, 80, 24, own)
	live.press("tab", "space").wait(30*time.Second).press("space").wait(3*time.Minute).press("s", "u")
	before, err := readAll(path)
	require.NoError(t, err)

	world := opened.AddDate(1, 0, 0)
	replay := start(t, 80, 24, func(c *ui.Config) {
		own(c)
		c.Clock = clocks.Led(func() time.Time { return world }).Replay(opened.Add(10*time.Second), 60)
	})
	replay.sees("REPLAY", "turned on at 23:14", "no subs are being taken")
	for seconds := 0; !strings.Contains(replay.text(), "rewind after sub"); seconds++ {
		require.Less(t, seconds, 10, "the subs start again: %s", replay.text())
		world = world.Add(time.Second)
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
	s.press("1").sees("until NGC 2070 can be used, at 21:39 (twilight until then)").seesNot("turned on")
}

// A clock that is set jumps against the steady count: it is told and noted, and what was said before keeps
// its true distance in time.
func TestClockThatJumpsIsToldAndNoted(t *testing.T) {
	k := kit.Example()
	k.Example = false
	var set time.Duration
	path := filepath.Join(t.TempDir(), "journal.db")
	s := &session{t: t, now: opened}
	began := s.now
	s = startWith(s, 80, 24, func(c *ui.Config) {
		c.Kit, c.JournalPath = k, path
		c.Clock = clocks.LedBeside(func() time.Time { return s.now.Add(set) }, func() time.Duration { return s.now.Sub(began) }, "one start")
	})
	s.press("tab", "space").sees("turned on at 23:14")
	s.wait(time.Minute)
	set = -10 * time.Minute
	s.wait(time.Second).sees("the computer's clock was put back by 10 min; noted", "23:05:01 ACDT")
	s.press("esc").sees("turned on at 23:04") // by the clock as it goes now
	s.wait(time.Second).seesNot("was put back")
	events, err := readAll(path)
	require.NoError(t, err)
	assert.Equal(t, "clock-jumped", events[len(events)-1].Kind)
}

// Taking over: the second program writes from then on, and the first is told and says no more.
func TestTakingOverTheNight(t *testing.T) {
	k := kit.Example()
	k.Example = false
	path := filepath.Join(t.TempDir(), "journal.db")
	own := func(c *ui.Config) { c.Kit, c.JournalPath = k, path }
	first := start(t, 120, 40, own)
	first.press("tab", "space").sees("turned on at 23:14")
	second := start(t, 120, 40, own)
	second.press("x").sees("x is no answer here; waiting for enter, w or esc")
	second.press("esc").sees("FOLLOWING")
	third := start(t, 120, 40, own)
	third.press("w").seesNot("FOLLOWING").press("space").sees("sub 1 has")
	first.press("space").sees("taken")
	second.now = third.now
	second.send(second.model.Tick())
	second.sees("sub 1 has")
}

// A copy is kept when a new night is opened, of what the night before left.
func TestABackupAfterEachNight(t *testing.T) {
	k := kit.Example()
	k.Example = false
	path := filepath.Join(t.TempDir(), "journal.db")
	own := func(c *ui.Config) { c.Kit, c.JournalPath = k, path }
	require.NoError(t, start(t, 80, 24, own).press("tab", "space", "q").model.Close())
	copies := func() int {
		names, err := filepath.Glob(filepath.Join(filepath.Dir(path), "backups", "*"))
		require.NoError(t, err)
		return len(names)
	}
	assert.Zero(t, copies(), "not in the night")
	s := &session{t: t, now: opened.Add(24 * time.Hour)}
	startWith(s, 80, 24, func(c *ui.Config) { own(c); c.Clock = clocks.Led(func() time.Time { return s.now }) })
	assert.Equal(t, 1, copies())
}

// A night of twelve hours with hundreds of events leaves memory as it was: facts are replaced, not piled up.
func TestMemoryStaysFlatThroughANight(t *testing.T) {
	s := at(t, local(20, 0), nil)
	heap := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	night := func() {
		rounds := 15
		if *sweep > 1 {
			rounds = 30 * *sweep
		}
		for i := range rounds {
			s.now = s.now.Add(3 * time.Hour / time.Duration(rounds))
			s.send(s.model.Tick())
			s.press("n", "x", "enter")
			if i%3 == 0 {
				s.press("tab", "u")
			}
			_ = s.model.View()
		}
	}
	night()
	before := heap()
	for range 3 {
		night()
	}
	grown := int64(heap()) - int64(before)
	// A hundred events and their undoing are some 25 KB, one night's facts kept by each would be ten times the bound;
	// the slack is the allocator's and SQLite's.
	assert.Less(t, grown, int64(3<<20), "bytes")
}
