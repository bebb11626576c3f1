package arrival

import (
	"cmp"
	"maps"
	"slices"
	"time"
)

// Kind is what a notice is about.
type Kind string

// The kinds of notices.
const (
	Silent        Kind = "silent"         // no sub comes though they are being taken
	WrongExposure Kind = "wrong exposure" // not that of the kit's filter
	UnknownFilter Kind = "unknown filter"
	OtherObject   Kind = "other object" // the header names another target than the run's
	SensorOff     Kind = "sensor off"   // its set point
	Spoilt        Kind = "spoilt"       // by a rewind or the derotator's limit
	NotALight     Kind = "not a light"  // though lights are being taken
	Copied        Kind = "copied"       // two frames of one DATE-OBS
	Unread        Kind = "unread"       // could not be read or measured
	ClockOff      Kind = "clock off"
	DiskShort     Kind = "disk short" // of what the plan needs
)

// Notice is something odd about the frames that have arrived.
type Notice struct {
	Kind Kind
	At   time.Time // when it came to be so, on our clock
	Path string    // of the frame that it is about; "" if it is about none
	Odd
	Old bool   // the frame was there when the watch began: no cause for alarm now
	Key string // the same for what is the same notice, however its numbers change
}

// Notices returns all that is odd, in the order of its instants.
func (l Ledger) Notices() []Notice {
	notices := slices.Concat(
		l.once(WrongExposure, l.wrongExposure), l.once(UnknownFilter, l.unknownFilter), l.once(OtherObject, l.otherObject()),
		l.each(Copied, copied), l.stretches(SensorOff, l.sensorOff), l.stretches(NotALight, l.notALight),
		l.stretches(Unread, unread), l.spoilt(), l.silence(), l.clocks(), l.disk())
	slices.SortFunc(notices, func(a, b Notice) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Key, b.Key)) })
	return notices
}

// Told is which notices have been raised. It is a value; the zero Told has raised none.
type Told struct{ keys map[string]bool }

// Fresh returns the notices that have not been raised yet, each once, and the Told that has raised them too.
func (t Told) Fresh(notices []Notice) (Told, []Notice) {
	var fresh []Notice
	keys := t.keys
	for _, n := range notices {
		if keys[n.Key] {
			continue
		}
		if len(fresh) == 0 {
			keys = maps.Clone(t.keys)
			if keys == nil {
				keys = map[string]bool{}
			}
		}
		keys[n.Key] = true
		fresh = append(fresh, n)
	}
	return Told{keys}, fresh
}

// fault says what is odd about a frame: subject tells one fault of a kind from another, "" for none.
type fault func(Entry) (subject string, odd Odd)

func notice(kind Kind, e Entry, key string, odd Odd) Notice {
	at := e.Seen
	if e.Already || at.IsZero() {
		at = e.End()
	}
	return Notice{Kind: kind, At: at, Path: e.Path, Odd: odd, Old: e.Already, Key: string(kind) + "|" + key}
}

// each raises a fault for each frame that has it.
func (l Ledger) each(kind Kind, find fault) (notices []Notice) {
	for _, e := range l.Entries {
		if subject, odd := find(e); subject != "" {
			notices = append(notices, notice(kind, e, e.Path, odd))
		}
	}
	return notices
}

// once raises a fault for the first frame of each subject in the night.
func (l Ledger) once(kind Kind, find fault) (notices []Notice) {
	raised := map[string]bool{}
	for _, e := range l.Entries {
		subject, odd := find(e)
		if subject == "" || raised[subject] {
			continue
		}
		raised[subject] = true
		notices = append(notices, notice(kind, e, subject, odd))
	}
	return notices
}

// stretches raises a fault for the first of the frames in a row that have it.
func (l Ledger) stretches(kind Kind, find fault) (notices []Notice) {
	before := ""
	for _, e := range l.Entries {
		subject, odd := find(e)
		if subject != "" && subject != before {
			notices = append(notices, notice(kind, e, e.Path, odd))
		}
		before = subject
	}
	return notices
}
