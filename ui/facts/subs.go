package facts

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/frames/drift"
	"duskhand/checklist/frames/quality"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/plan"
)

// Subs is what the frames that have arrived say of the night.
type Subs struct {
	Watched bool // the kit names folders to watch, or frames have come all the same
	Ledger  arrival.Ledger
	Arrived []checklist.Arrived // in the order in which they were read
	Notices []arrival.Notice    // all that is odd, oldest first
	Hints   []survey.Hint       // what the latest lights suggest
	Quality []quality.Finding   // what they show of optics, mount and exposure
	Drift   drift.Finding       // of the picture in the run that goes on
	Thermal *survey.Thermal     // how the stars went with the temperature since focusing; nil if nobody can tell
	Latest  *checklist.Arrived  // the last light that was measured
	Turning *checklist.TurningBody

	FreeBytes *uint64 // on the disk that they go to; nil when nobody knows
}

// SubsAt places the frames in the night. freeBytes is nil when nobody knows how much room the disk has;
// blind tells that a folder can't be looked at.
func (r Run) SubsAt(freeBytes *uint64, blind bool) Subs {
	s := Subs{Watched: len(r.Kit.Watch.Folders) > 0 || len(r.Log.Arrived) > 0, Arrived: r.Log.Arrived, FreeBytes: freeBytes}
	s.Ledger = arrival.Keep(arrival.Kept(r.Log), arrival.Situation{
		Kit: r.Kit, Night: r.Log, Current: r.Kit.Targets[0].Name, Now: r.Now, Spoiling: r.spoiling(), Left: r.SubsPlanned(), FreeBytes: freeBytes,
		Unwatched: blind || len(r.Kit.Watch.Folders) == 0,
	})
	s.Notices = s.Ledger.Notices()
	trend := survey.Trend(s.Ledger, r.Kit)
	s.Hints = survey.Hints(trend, r.focusedAt())
	s.Quality = quality.Of(r.Log, r.Kit, r.Course)
	s.Drift = drift.Of(r.Log, r.Night, r.Axis, r.Course)
	if thermal, ok := survey.ByTemperature(trend, r.Log.Temperatures, r.focusedAt()); ok {
		s.Thermal = &thermal
	}
	for i := range s.Arrived {
		if a := &s.Arrived[i]; a.Measured != nil {
			s.Latest = a
		}
	}
	if said, ok := r.Turning(); ok {
		s.Turning = &said
	}
	return s
}

// WarmedSinceFocus is by how many kelvins the tube is warmer than when the telescopes were focused, negative as it cools;
// ok is false unless both were read.
func (r Run) WarmedSinceFocus() (k float64, ok bool) {
	n := len(r.Log.Temperatures)
	if r.Log.Focused == nil || r.Log.Focused.TempC == nil || n == 0 {
		return 0, false
	}
	return r.Log.Temperatures[n-1].C - *r.Log.Focused.TempC, true
}

// spoiling are the times in which no exposure is of use: between runs, and past the limit.
func (r Run) spoiling() []arrival.Spoiling {
	var all []arrival.Spoiling
	for i, run := range r.Log.Runs {
		if i > 0 && !r.Log.Runs[i-1].End.IsZero() && r.Log.Runs[i-1].End.Before(run.Start) {
			all = append(all, arrival.Spoiling{Span: plan.Span{From: r.Log.Runs[i-1].End, To: run.Start}, Why: arrival.Rewinding})
		}
	}
	if r.AtLimit() {
		all = append(all, arrival.Spoiling{Span: plan.Span{From: r.Call.Limit.At.At}, Why: arrival.PastLimit})
	}
	return all
}

// focusedAt is when the telescopes were focused last; zero if never.
func (r Run) focusedAt() time.Time {
	if r.Log.Focused == nil {
		return time.Time{}
	}
	return r.Log.Focused.At
}
