package arrival_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/arrival"
)

// four frames of the open run, each altered.
func four(changes ...func(*arrival.Frame)) (frames []arrival.Frame) {
	for i := range 4 {
		frames = append(frames, light(64+1.1*float64(i), "L", time.Minute, changes...))
	}
	return frames
}

func TestClocks(t *testing.T) {
	const s = time.Second
	cases := []struct {
		name   string
		frames []arrival.Frame
		says   []arrival.Odd
		behind time.Duration // by DATE-OBS
		within time.Duration
	}{
		// Each is seen 4 s after its end and 1 s after its writing, at most 2 s late. So from DATE-OBS alone the offset
		// lies from 12 s below the lag of 4 s to the lag: −2 s ± 6 s. From the files' times −1 s to 1 s.
		{"clocks that agree", four(), nil, -2 * s, 6 * s},
		{"43 s behind, by both", four(behind(43*s, 43*s)), []arrival.Odd{{Clock: arrival.Capture, Ahead: -43 * s}}, 43 * s, s},
		{"43 s ahead, by both", four(behind(-43*s, -43*s)), []arrival.Odd{{Clock: arrival.Capture, Ahead: 43 * s}}, -43 * s, s},
		{"5 min behind, the folder kept here", four(behind(300*s, 0)), []arrival.Odd{{Clock: arrival.Capture, Ahead: -298 * s}}, 298 * s, 6 * s},
		{"4 s behind is beyond no doubt", four(behind(4*s, 4*s)), nil, 2 * s, 6 * s},
		{"the folder's clock alone", four(behind(0, 90*s)), []arrival.Odd{{Clock: arrival.Folder, Ahead: -90 * s}}, -2 * s, 6 * s},
		{"two clocks, each off its own way", four(behind(-60*s, 90*s)), []arrival.Odd{{Clock: arrival.Capture, Ahead: 62 * s},
			{Clock: arrival.Folder, Ahead: -90 * s}}, -62 * s, 6 * s},
		{"local time of Adelaide", four(behind(-630*60*s, 0)), []arrival.Odd{{Clock: arrival.LocalTime, Ahead: 10*time.Hour + 30*time.Minute}}, -630*60*s - 2*s, 6 * s},
		{"local time of Denver", four(behind(420*60*s, 0)), []arrival.Odd{{Clock: arrival.LocalTime, Ahead: -7 * time.Hour}}, 420*60*s - 2*s, 6 * s},
		// Every frame takes 40 s to be written, in frames 66 s apart: its lag is 44 s, of which any part may be the clock's.
		{"slow writing", four(slow(40 * s)), nil, 22 * s, 22 * s},
		{"two frames are too few", four(behind(43*s, 43*s))[:2], nil, 0, 0},
		{"frames that were there say nothing", four(behind(43*s, 43*s), already), nil, 0, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			l := arrival.Keep(c.frames, situation())
			var says []arrival.Odd
			for _, n := range l.Notices() {
				require.Equal(t, arrival.ClockOff, n.Kind)
				says = append(says, n.Odd)
			}
			assert.ElementsMatch(t, c.says, says)
			assert.Equal(t, c.behind, l.Dates.Behind)
			assert.Equal(t, c.within, l.Dates.Within)
			assert.Equal(t, c.within > 0, l.Dates.Known)
		})
	}
}

func TestStartsAreBroughtToOurClock(t *testing.T) {
	for _, off := range []time.Duration{-11 * time.Hour, -3 * time.Minute, 0, 3 * time.Minute, 7 * time.Hour} {
		l := arrival.Keep(four(behind(off, 0)), situation())
		for i, e := range l.Entries {
			assert.WithinDuration(t, at(64+1.1*float64(i)), e.Start, 6*time.Second, "%v off; the estimate's own doubt", off)
			assert.Equal(t, 1, e.Run)
		}
	}
}

// A frame of last week that somebody copies in, seen now, is no sign of a slow clock.
func TestOldFramesCopiedInAreNoOffset(t *testing.T) {
	frames := four()
	for i := range 4 {
		frames = append(frames, light(-10000+1.1*float64(i), "L", time.Minute, func(f *arrival.Frame) { f.Seen = at(69) }))
	}
	l := arrival.Keep(frames, situation())
	assert.False(t, l.Dates.Matters())
	assert.False(t, l.Files.Matters())
	assert.Equal(t, []arrival.Count{{"", "L", time.Minute, 4, 4}, {"NGC 1365", "L", time.Minute, 4, 0}}, l.Counts())
}

// One download that takes a minute, among others that do not, is no offset either.
func TestOneSlowDownloadIsNoOffset(t *testing.T) {
	frames := four()
	frames[2].Seen = frames[2].Seen.Add(time.Minute)
	assert.False(t, arrival.Keep(frames, situation()).Dates.Matters())
}

// slow has the writing take longer.
func slow(by time.Duration) func(*arrival.Frame) {
	return func(f *arrival.Frame) { f.Changed, f.Seen = f.Changed.Add(by), f.Seen.Add(by) }
}
