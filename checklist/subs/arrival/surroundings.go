package arrival

import "fmt"

// clocks tells that the capture computer's clock, or that of whoever keeps the folder, is off ours. Which of the
// two is right nobody here knows.
func (l Ledger) clocks() []Notice {
	var notices []Notice
	say := func(key, text string) {
		notices = append(notices, Notice{Kind: ClockOff, At: l.situation.Now, Text: text, Key: string(ClockOff) + "|" + key})
	}
	if ahead, local := l.Dates.LocalTime(); local {
		say("local", fmt.Sprintf("DATE-OBS is %s UTC, so it seems to be local time; have the capture program write UTC", side(lasting(ahead.Abs()), ahead > 0, "ahead of", "behind")))
	} else if l.Dates.Matters() {
		say("dates", fmt.Sprintf("the capture computer's clock is %s this one; set the one that is wrong",
			side(lasting(l.Dates.Behind.Abs()), l.Dates.Behind < 0, "ahead of", "behind")))
	}
	if l.Files.Matters() && l.Files != l.Dates {
		say("files", fmt.Sprintf("the files' times are %s this clock; set the clock of the computer that keeps the folder",
			side(lasting(l.Files.Behind.Abs()), l.Files.Behind < 0, "ahead of", "behind")))
	}
	return notices
}

func side(by string, first bool, one, other string) string {
	if first {
		return by + " " + one
	}
	return by + " " + other
}

// disk tells that the disk has no room for what is still planned, if the subs are as large as the last.
func (l Ledger) disk() []Notice {
	s := l.situation
	size := uint64(0)
	for _, e := range l.Entries {
		if e.Counts() {
			size = uint64(max(0, e.Size))
		}
	}
	if s.FreeBytes == nil || s.Left <= 0 || size == 0 || *s.FreeBytes/size >= uint64(s.Left) {
		return nil
	}
	return []Notice{{Kind: DiskShort, At: s.Now, Key: string(DiskShort), Text: fmt.Sprintf(
		"the disk has room for %d more subs of %.1f MB, but %d are planned; make room", *s.FreeBytes/size, float64(size)/1e6, s.Left)}}
}
