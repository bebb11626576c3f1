// Package record makes the report of a night, or of all, from what the journal holds: for the person who
// stacks the frames next week, and has forgotten how they came about.
//
// It is a pure function of events, kit and instant. Subs are counted as the screens count them (package
// tally): from when they were said to start and stop, with the exposures and overheads of the kit.
package record

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/stage"
	"duskhand/checklist/journal"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Events are what the journal holds of one night.
type Events struct {
	Date   plan.Date
	Events []journal.Event
}

// Record is the report.
type Record struct {
	Kit    kit.Kit
	Nights []Night // those asked for, in order
	Totals []Total // over all nights that were given
	Of     int     // how many nights those are
}

// Night is one night in full. All instants are on the clock as it went at the end of the night.
type Night struct {
	Date     plan.Date
	Span     plan.Span // noon to noon
	Axis     kit.Axis
	AxisHow  string // how the axis was measured; "" if it is the kit's
	Targets  []Target
	Rewinds  []Rewind
	Mentions []Mention           // in the order in which they were said
	Owed     []Owed              // calibration frames; none if no subs were counted
	SkyLacks []string            // keys of the kit without which it is not known when the sky is right for the flats owed
	Strays   []Stray             // exposures that could not be counted
	Lights   []Light             // that were placed by their stars, in the order of their exposures
	Gotos    []checklist.Landing // that a light has shown the end of, in order
}

// Target is what was done on one target.
type Target struct {
	Name   string
	Runs   []Run
	Groups []Group          // of runs whose frames coincide, by their first run
	Common plan.CommonField // of all runs that have subs
	Crop   Pixels           // its largest upright crop, in pixels of the first run's frame
	Counts []FilterSubs     // over all runs, in the kit's order; Numbers is nil
}

// Run is one run of the derotator.
type Run struct {
	plan.Span
	Number               int  // in the night, from 1
	Open                 bool // nobody said that it ended; To is then the latest that is plausible
	StartAngle, EndAngle sky.Angle
	EndRead              bool      // EndAngle was read, not computed
	CameraAngle          sky.Angle // position angle (J2000) of the chip's up, [0°, 360°)
	Group                string
	Filters              []FilterSubs  // in the kit's order
	Frames               *Frames       // nil if none were measured
	Seen                 *Seen         // what its placed lights show; nil if none was placed
	Stage                stage.Finding // what the stage did by them
}

// shotAt returns the camera angle that frames of the run are compared by: the one that their stars show, where all
// runs that are compared have it, else the computed one.
func (r Run) shotAt(bySight bool) sky.Angle {
	if bySight {
		return r.Seen.Angle
	}
	return r.CameraAngle
}

// Subs returns the number of subs of the run that were taken in the dark.
func (r Run) Subs() (n int) {
	for _, f := range r.Filters {
		n += f.Count
	}
	return n
}

// FilterSubs are the subs through one filter.
type FilterSubs struct {
	Filter      string
	Exposure    time.Duration
	Count       int         // taken in the dark
	Early       int         // beside those: taken while it was not dark
	First, Last time.Time   // the first one's start, the last one's end
	Numbers     []Stretch   // which of the run's subs they are, counted from 1
	Sun         []sky.Angle // the altitude of its centre, airless, in the middle of each; none where runs are added up
}

// SunHighest returns the greatest altitude of the Sun in the middle of one of the subs.
func (f FilterSubs) SunHighest() (highest sky.Angle) {
	highest = -90 * sky.Degree
	for _, sun := range f.Sun {
		highest = max(highest, sun)
	}
	return highest
}

// Exposed returns the time with the shutter open.
func (f FilterSubs) Exposed() time.Duration { return time.Duration(f.Count) * f.Exposure }

// Stretch is numbers in a row, both ends included.
type Stretch struct{ From, To int }

// Pixels is the size of a picture.
type Pixels struct{ Width, Height int }

// Rewind is one turning back of the derotator.
type Rewind struct {
	At      time.Time  // when it was said to be done
	From    *sky.Angle // as somebody read it; nil if nobody did
	To      sky.Angle
	Pause   time.Duration // from the last exposure before it to the first after it, if HasPause
	Pauses  bool          // whether there were exposures on both sides
	Turning time.Duration // what the kit says that the turning takes; 0 if From is not known
}

// Stray is a stretch of exposures that no run's count has.
type Stray struct {
	plan.Span
	Filter string
	Why    string
}

// Of returns the report of the nights to be shown, of those that are given, as of now. Totals are over
// all that are given. The kit is the one of now: older nights may have been taken with another.
func Of(k kit.Kit, given []Events, show func(plan.Date) bool, now time.Time) Record {
	r := Record{Kit: k, Of: len(given)}
	var totals totals
	for _, events := range given {
		night := read(k, events, now)
		totals.add(night)
		if show(events.Date) {
			r.Nights = append(r.Nights, night.report())
		}
	}
	r.Totals = totals.list(k)
	return r
}

// log is a night that has been read and counted.
type log struct {
	kit      kit.Kit
	date     plan.Date
	events   []journal.Event // that count
	night    checklist.Night
	runs     []counted
	strays   []Stray
	openTill time.Time // until when what nobody ended is counted
	measured map[int]*Frames
	placed   []Light
}

// counted is a run of the log with its target and subs.
type counted struct {
	checklist.Run
	target kit.Target
	subs   []plan.Sub
}

func read(k kit.Kit, given Events, now time.Time) log {
	folded := checklist.Fold(given.Events)
	k = tally.Kit(k, folded)
	l := log{kit: k, date: given.Date, events: retell(given.Events), night: folded}
	l.openTill = earlier(now, endOf(k, given.Date, l.night))
	subs := tally.Count(k, l.night, tally.Chosen(k, l.night, nil).Name)
	for i, run := range l.night.Runs {
		c := counted{Run: run, target: tally.Chosen(k, l.night, run.Target), subs: subs.Runs[i]}
		if stretch, goes := subs.Going(); goes && run.Open {
			progress, known := subs.Progress(c.target.Name, stretch, l.openTill)
			if !subs.Watched() {
				c.subs = append(c.subs, progress.Done...)
			}
			if !known {
				stretch.End = later(stretch.Start, l.openTill)
				subs.Unknown = append(subs.Unknown, stretch)
			}
		}
		l.runs = append(l.runs, c)
	}
	for _, s := range subs.Unknown {
		l.strays = append(l.strays, Stray{plan.Span{From: s.Start, To: s.End}, s.Filter, "the kit has no such filter"})
	}
	l.strays = append(l.strays, adrift(l.events, l.openTill)...)
	l.measured, l.placed = l.frames()
	return l
}

// endOf returns the latest that anything open in the log can have gone on: dawn, or the night's noon where
// there is none. It is asked for only if something is open, since twilight takes a while to find.
func endOf(k kit.Kit, date plan.Date, night checklist.Night) time.Time {
	if _, open := night.OpenRun(); !open && night.Subs == nil {
		return night.Latest
	}
	sun := plan.NewNight(k, date)
	if n := len(sun.Dark); n > 0 && sun.Dark[n-1].To.After(night.Latest) {
		return sun.Dark[n-1].To
	}
	return later(night.Latest, sun.Span.To)
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
