package checklist_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist"
	"duskhand/checklist/journal"
)

// count is a machine's count from a start, which its clock shows at a minute of the night.
func count(boot string, began int) checklist.Count {
	return checklist.Count{Boot: boot, Began: minute(began)}
}

// A small computer without a clock chip is started anew at minute 60, shows minute 20, and is put right at 25: what
// was said before lies on another clock and stays, what was said since moves.
func TestAJumpMovesOnlyWhatWasSaidOnTheClockThatJumped(t *testing.T) {
	for name, said := range map[string]int{"before the wrong clock's start": 10, "while it ran, by its own showing": 22, "later than it ever showed": 55} {
		t.Run(name, func(t *testing.T) {
			s := begin(t).say(0, checklist.OpenNight{Count: count("first", -30)}).say(said, checklist.TurnOn{Angle: deg(-16)}).
				say(20, checklist.OpenNight{Count: count("second", 19)}).say(22, checklist.WriteNote{Text: "started again"}).
				say(25, checklist.NoticeJump{From: minute(25), To: minute(65)}).say(66, checklist.WriteNote{Text: "right again"})
			assert.Equal(t, minute(said), s.night.Anchor.At)
			assert.Equal(t, []checklist.Note{{At: minute(62), Text: "started again"}, {At: minute(66), Text: "right again"}}, s.night.Notes)
			assert.Equal(t, count("second", 59), s.night.Count)
			assert.Equal(t, checklist.Fold(s.events), s.night)
			_, ahead := s.night.Ahead(minute(66))
			assert.False(t, ahead)
		})
	}
}

// Journals of before say nothing of the machine's starts: what lies later than the clock had come is not of it, nor
// what came before that.
func TestAJumpOfAnOldJournalGoesBackToWhatItsClockCanHaveShown(t *testing.T) {
	s := begin(t).say(5, checklist.TurnOn{Angle: deg(-16)}).say(55, checklist.WriteNote{Text: "last before it was started anew"}).
		say(22, checklist.WriteNote{Text: "slow"}).say(25, checklist.NoticeJump{From: minute(25), To: minute(65)})
	assert.Equal(t, minute(5), s.night.Anchor.At)
	assert.Equal(t, minute(55), s.night.Notes[0].At)
	assert.Equal(t, minute(62), s.night.Notes[1].At)
}

func TestTheUndoLineGoesByTheClockAsItGoes(t *testing.T) {
	s := begin(t).say(0, checklist.TurnOn{Angle: deg(-16)}).say(30, checklist.Rewound{To: *deg(-16)})
	assert.Equal(t, "undo: rewound to −16°, 22:30", s.night.UndoWords(adelaide)) // 11:30 UTC + 30 min + 10:30
	s.say(40, checklist.NoticeJump{From: minute(40), To: minute(100)})
	assert.Equal(t, "undo: rewound to −16°, 23:30", s.night.UndoWords(adelaide))
	s.say(101, checklist.Undo{})
	assert.Equal(t, "undo: derotator on at −16°, 23:00", s.night.UndoWords(adelaide))
	s.say(102, checklist.NoticeJump{From: minute(102), To: minute(42)})
	assert.Equal(t, "undo: derotator on at −16°, 22:00", s.night.UndoWords(adelaide))
}

// There and back again leaves every instant as it was.
func TestAJumpThereAndBackChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var events []journal.Event
		n := checklist.Night{}
		add := func(at time.Time, a checklist.Action) {
			kind, body, err := checklist.Say(n, a, adelaide)
			if err != nil {
				return
			}
			e := eventOf(t, int64(len(events)+1), at, kind, body)
			events, n = append(events, e), n.Next(e)
		}
		for i := range rapid.IntRange(1, 20).Draw(t, "length") {
			a := anyAction(t)
			if _, jump := a.(checklist.NoticeJump); !jump {
				add(minute(i), a)
			}
		}
		before, far := n, minute(30).Add(time.Duration(rapid.IntRange(-3000, 3000).Draw(t, "minutes"))*time.Minute)
		if far.Equal(minute(30)) {
			return
		}
		add(minute(30), checklist.NoticeJump{From: minute(30), To: far})
		add(far, checklist.NoticeJump{From: far.Add(time.Minute), To: minute(31)})
		require.Equal(t, before.Runs, n.Runs)
		require.Equal(t, before.Anchor, n.Anchor)
		require.Equal(t, before.Subs, n.Subs)
		require.Equal(t, before.Latest, n.Latest)
		require.Equal(t, before.UndoWords(adelaide), n.UndoWords(adelaide))
	})
}

// Frames move with the clock: when they were seen, and when by our clock they began, but not what their headers say.
func TestFramesMoveWithTheClock(t *testing.T) {
	ns := func(m int) *int64 { n := minute(m).UnixNano(); return &n }
	s := begin(t).say(3, checklist.SubArrived{Body: checklist.SubArrivedBody{Path: "/subs/a.fits", SeenNs: *ns(3), StartNs: ns(1), OursNs: ns(2)}}).
		say(4, checklist.NoticeJump{From: minute(4), To: minute(14)})
	frame := s.night.Arrived[0]
	assert.Equal(t, minute(13), frame.At)
	assert.Equal(t, *ns(13), frame.SeenNs)
	assert.Equal(t, ns(1), frame.StartNs)
	assert.Equal(t, ns(12), frame.OursNs)
}

// What lies later than the clock shows is questioned, some seconds aside.
func TestWhatLiesLaterThanTheClockIsQuestioned(t *testing.T) {
	s := begin(t).say(40, checklist.WriteNote{Text: "x"})
	by, ahead := s.night.Ahead(minute(0))
	assert.True(t, ahead)
	assert.Equal(t, 40*time.Minute, by)
	_, ahead = s.night.Ahead(minute(40).Add(-5 * time.Second))
	assert.False(t, ahead)
}

// The clock was ahead, and is right since the machine's new start: the doubt stays when the clock has caught up, until
// the angle is said. That counts on the clock as it goes, and what came before ends where the machine was started.
func TestAReadingSettlesAClockThatWentBackOverAStart(t *testing.T) {
	s := begin(t).say(40, checklist.OpenNight{Count: count("first", 0)}).say(50, checklist.TurnOn{Angle: deg(-16)}).say(51, checklist.StartSubs{}).
		say(70, checklist.StopSubs{}).say(30, checklist.OpenNight{Count: count("second", 29)})
	for _, now := range []int{31, 69, 200} {
		by, ahead := s.night.Ahead(minute(now))
		assert.True(t, ahead, "at minute %d", now)
		assert.Equal(t, 40*time.Minute, by)
	}
	s.say(32, checklist.Read{Angle: *deg(-9)})
	_, ahead := s.night.Ahead(minute(33))
	assert.False(t, ahead)
	assert.Equal(t, minute(32), s.night.Anchor.At)
	assert.Equal(t, minute(10), s.night.Runs[0].Start)
	assert.Equal(t, 19*time.Minute, s.night.Runs[0].Exposing())
	assert.Equal(t, minute(30), s.night.Runs[0].Subs[0].End)
	assert.Equal(t, checklist.Fold(s.events), s.night)
	s.say(33, checklist.Undo{})
	_, ahead = s.night.Ahead(minute(33))
	assert.True(t, ahead, "the reading was taken back")
}

// It was the new clock that was wrong: put right, nothing is left of the doubt, and the reading stands where it was.
func TestAClockPutRightLeavesNoDoubt(t *testing.T) {
	s := begin(t).say(0, checklist.OpenNight{Count: count("first", -60)}).say(10, checklist.TurnOn{Angle: deg(-16)}).say(50, checklist.WriteNote{Text: "x"}).
		say(20, checklist.OpenNight{Count: count("second", 19)}).say(22, checklist.Read{Angle: *deg(-3)})
	assert.Equal(t, minute(-20), s.night.Runs[0].Start, "pulled back by half an hour: the reading holds, and it began before")
	s.say(25, checklist.NoticeJump{From: minute(25), To: minute(65)})
	assert.Equal(t, minute(10), s.night.Runs[0].Start)
	assert.Equal(t, minute(62), s.night.Anchor.At)
	_, ahead := s.night.Ahead(minute(65))
	assert.False(t, ahead)
}

func TestWhatAProgramSaysFirstInANight(t *testing.T) {
	open := func(c checklist.Count) checklist.Action {
		return checklist.OpenNight{Kit: "kit.toml", Target: "M 42", Count: c}
	}
	written := begin(t).say(0, checklist.OpenNight{Count: count("one", -60)}).night
	old := begin(t).say(0, checklist.WriteNote{Text: "of a program that knew no counts"}).night
	for _, c := range []struct {
		name  string
		night checklist.Night
		count checklist.Count
		want  checklist.Action
	}{
		{"a new night is opened", checklist.Night{}, count("one", -60), open(count("one", -60))},
		{"also where nobody can tell starts apart", checklist.Night{}, checklist.Count{}, open(checklist.Count{})},
		{"the clock has gone on", written, count("one", -60), nil},
		{"it was slewed by a second", written, checklist.Count{Boot: "one", Began: minute(-60).Add(time.Second)}, nil},
		{"it was put forward while no program ran", written, count("one", -20), checklist.NoticeJump{From: minute(-10), To: minute(30)}},
		{"it was put back", written, count("one", -70), checklist.NoticeJump{From: minute(40), To: minute(30)}},
		{"the machine was started anew", written, count("two", 20), open(count("two", 20))},
		{"nobody can tell", written, checklist.Count{}, nil},
		{"the night is of an older program", old, count("one", -60), open(count("one", -60))},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, c.night.Opening("kit.toml", "M 42", c.count, minute(30)))
		})
	}
}
