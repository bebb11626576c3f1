package arrival

import (
	"slices"
	"time"
)

// clocks tells that the capture computer's clock, or that of whoever keeps the folder, is off ours. Which of the
// two is right nobody here knows. Each is dated by the frame that showed it first.
func (l Ledger) clocks() []Notice {
	notices := clocksOff(l.Dates, l.Files)
	if len(notices) == 0 {
		return nil
	}
	coming := l.seenComing()
	for i := range notices {
		notices[i].At = l.offSince(coming, notices[i].Key)
	}
	return notices
}

// clocksOff says what two offsets mean, without the instant.
func clocksOff(dates, files Offset) []Notice {
	var notices []Notice
	say := func(clock Clock, ahead time.Duration) {
		notices = append(notices, Notice{Kind: ClockOff, Odd: Odd{Clock: clock, Ahead: ahead}, Key: string(ClockOff) + "|" + string(clock)})
	}
	if ahead, local := dates.LocalTime(); local {
		say(LocalTime, ahead)
	} else if dates.Matters() {
		say(Capture, -dates.Behind)
	}
	if files.Matters() && files != dates {
		say(Folder, -files.Behind)
	}
	return notices
}

// seenComing returns the frames that were seen coming, in that order.
func (l Ledger) seenComing() []Frame {
	var coming []Frame
	for _, e := range l.Entries {
		if !e.Already && !e.Seen.IsZero() {
			coming = append(coming, e.Frame)
		}
	}
	slices.SortStableFunc(coming, func(a, b Frame) int { return a.Seen.Compare(b.Seen) })
	return coming
}

// offSince returns when the first frame was seen of the last in a row that show a clock to be off.
func (l Ledger) offSince(coming []Frame, key string) (since time.Time) {
	for n := len(coming); n > 0; n-- {
		latest := coming[max(0, n-mostForOffset):n]
		shown := clocksOff(Clocks(latest, l.situation.Kit.Subs.Overhead))
		if !since.IsZero() && !slices.ContainsFunc(shown, func(n Notice) bool { return n.Key == key }) {
			break
		}
		since = coming[n-1].Seen
	}
	return since
}

// disk tells that the disk has no room for what is still planned, if the subs are as large as the last. What room
// it had earlier nobody wrote down, so that it is dated by that sub.
func (l Ledger) disk() []Notice {
	s := l.situation
	var last Entry
	for _, e := range l.Entries {
		if e.Counts() {
			last = e
		}
	}
	size := uint64(max(0, last.Size))
	if s.FreeBytes == nil || s.Left <= 0 || size == 0 || *s.FreeBytes/size >= uint64(s.Left) {
		return nil
	}
	short := notice(DiskShort, last, "", Odd{Subs: int(*s.FreeBytes / size), Each: size, Left: s.Left})
	short.Path, short.Key, short.Old = "", string(DiskShort), false
	return []Notice{short}
}
