package arrival

import (
	"cmp"
	"slices"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// Situation is what frames are held against.
type Situation struct {
	Kit     kit.Kit
	Night   checklist.Night
	Current string // the target of runs that were made before any was chosen: the kit's first
	Now     time.Time

	Spoiling  []Spoiling
	Left      int     // subs that the plan still needs
	FreeBytes *uint64 // on the disk that the subs go to; nil if nobody knows
	Unwatched bool    // a folder can't be looked at, so that no frame comes says nothing
}

// Entry is a frame with its place in the night.
type Entry struct {
	Frame
	Start    time.Time // of the exposure, on our clock
	Sure     bool      // Start comes from the header, not from the file's time
	Exposure time.Duration
	Filter   int    // index into the kit's filters, −1 if it has none of that name
	Run      int    // index into the night's runs, −1 if it belongs to none
	Target   string // of its run; outside runs the one that its header names, "" if none is known by that
	Copy     string // the path of the frame that it is a copy of; "" if it is none
}

// Counts tells whether the frame is a sub: a light, or one that does not say what it is, and no copy.
func (e Entry) Counts() bool {
	return (e.Header.Kind == subs.Light || e.Header.Kind == subs.UnknownKind) && e.Copy == ""
}

// End returns when the exposure was over, on our clock.
func (e Entry) End() time.Time { return e.Start.Add(e.Exposure) }

// Ledger is the frames of a night in the order of their exposures.
type Ledger struct {
	Entries      []Entry
	Dates, Files Offset // of the clock behind DATE-OBS, and of the one behind the files' times
	situation    Situation
}

// Keep places frames in the night. It does not depend on the order of the frames.
func Keep(frames []Frame, s Situation) Ledger {
	frames = unique(frames)
	l := Ledger{situation: s}
	l.Dates, l.Files = Clocks(frames, s.Kit.Subs.Overhead)
	copies := copiesAmong(frames)
	named := map[string]string{}
	for _, f := range frames {
		e := l.place(f)
		e.Copy = copies[f.Path]
		if e.Run < 0 {
			e.Target = s.targetNamed(f.Header.Object, named)
		}
		l.Entries = append(l.Entries, e)
	}
	slices.SortStableFunc(l.Entries, func(a, b Entry) int { return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Path, b.Path)) })
	return l
}

// place finds when a frame was exposed, through which filter and in which run. What the header leaves out, the
// stretch of subs says that was going on then.
func (l Ledger) place(f Frame) Entry {
	s := l.situation
	e := Entry{Frame: f, Filter: FilterOf(s.Kit.Subs, f.Header.Filter)}
	start, dated := f.dated()
	if e.Sure = dated; dated {
		e.Start = start.Add(l.Dates.correction())
	} else {
		e.Start = f.Changed.Add(l.Files.correction())
	}
	stretch, going := s.stretchAt(e.Start)
	if f.Header.Filter == "" {
		if going {
			e.Filter = FilterOf(s.Kit.Subs, stretch.Filter)
		}
		if len(s.Kit.Subs.Filters) == 1 {
			e.Filter = 0
		}
	}
	switch {
	case f.Header.Exposure != nil:
		e.Exposure = *f.Header.Exposure
	case e.Filter >= 0:
		_, target := s.runAt(e.Start)
		e.Exposure = s.Kit.SubsNamed(target).Filters[e.Filter].Exposure
	}
	if !dated { // the file was written when the exposure was over
		e.Start = e.Start.Add(-e.Exposure)
	}
	e.Start = l.believed(e)
	e.Run, e.Target = s.runAt(e.Start)
	return e
}

// tooLate is by how much an exposure may seem to end after we saw its frame: two clocks set by hand.
const tooLate = 2 * time.Second

// believed returns the start of an exposure that is to be believed: what was found when the frame arrived, or
// what its header says, unless that can't be. Nothing is seen before it is over; and while too few frames have
// come to tell the clocks' offset, a start outside all runs gives way to one inside by the time we saw it.
func (l Ledger) believed(e Entry) time.Time {
	if e.Ours != nil {
		return *e.Ours
	}
	if e.Already || e.Seen.IsZero() {
		return e.Start
	}
	seen := e.Seen.Add(-e.Exposure)
	if e.End().After(e.Seen.Add(tooLate)) {
		return seen
	}
	if header, _ := l.situation.runAt(e.Start); header < 0 && !l.Dates.Known {
		if inside, _ := l.situation.runAt(seen); inside >= 0 {
			return seen
		}
	}
	return e.Start
}

// runAt returns the run that an instant lies in, and its target; −1 for none.
func (s Situation) runAt(t time.Time) (run int, target string) {
	for i := len(s.Night.Runs) - 1; i >= 0; i-- {
		r := s.Night.Runs[i]
		if t.Before(r.Start) || !r.Open && !t.Before(r.End) {
			continue
		}
		if r.Target != nil {
			return i, r.Target.Name
		}
		return i, s.Current
	}
	return -1, ""
}

// stretchAt returns the stretch of subs that an instant lies in.
func (s Situation) stretchAt(t time.Time) (stretch checklist.Subs, ok bool) {
	if now := s.Night.Subs; now != nil && !t.Before(now.Start) {
		return *now, true
	}
	for _, run := range s.Night.Runs {
		for _, stretch := range run.Subs {
			if (plan.Span{From: stretch.Start, To: stretch.End}).Contains(t) {
				return stretch, true
			}
		}
	}
	return checklist.Subs{}, false
}

// targetNamed returns the name of the target that a header means, "" if none is known by that.
func (s Situation) targetNamed(object string, known map[string]string) string {
	name, asked := known[object]
	if !asked && object != "" {
		if target, err := TargetOf(s.Kit, object); err == nil {
			name = target.Name
		}
		known[object] = name
	}
	return name
}

// copiesAmong finds frames of the same exposure: equal in start, length, filter and size of the picture. It
// returns the path of the one that counts by the path of each other: one that could be read before one that
// could not, then the oldest file. Frames are in the order of unique.
func copiesAmong(frames []Frame) map[string]string {
	type shot struct {
		start         time.Time
		exposure      time.Duration
		filter        string
		width, height int
		kind          subs.Kind
	}
	first, copies := map[shot]string{}, map[string]string{}
	for _, wantRead := range []bool{true, false} {
		for _, f := range frames {
			start, dated := f.dated()
			if !dated || (f.Unread == "") != wantRead {
				continue
			}
			this := shot{start: start.UTC(), filter: f.Header.Filter, width: f.Header.Width, height: f.Header.Height, kind: f.Header.Kind}
			if f.Header.Exposure != nil {
				this.exposure = *f.Header.Exposure
			}
			if path, twice := first[this]; twice {
				copies[f.Path] = path
				continue
			}
			first[this] = f.Path
		}
	}
	return copies
}
