package scan

import (
	"math"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Pace is how the subs of a kit follow one another, on the average over the counts that it wants.
type Pace struct {
	Exposure time.Duration // the mean sub
	Cadence  time.Duration // from its start to the next, dithers included
	Least    time.Duration // the shortest sub with its overhead
	Settle   time.Duration // from a start or rewind to the first sub
}

// PaceOf returns the pace of a kit's subs.
func PaceOf(s kit.Subs) Pace {
	var exposure time.Duration
	count, least := 0, time.Duration(math.MaxInt64)
	for _, f := range s.Wanted() {
		exposure += time.Duration(f.Count) * f.Exposure
		count += f.Count
		least = min(least, f.Exposure)
	}
	if count == 0 {
		return Pace{}
	}
	p := Pace{Exposure: exposure / time.Duration(count), Least: least + s.Overhead, Settle: s.Settle}
	p.Cadence = p.Exposure + s.Overhead
	if s.DitherEvery > 0 {
		p.Cadence += s.DitherSettle / time.Duration(s.DitherEvery)
	}
	return p
}

// Open returns how long the shutter is open while subs are taken for so long.
func (p Pace) Open(subs time.Duration) time.Duration {
	if p.Cadence == 0 {
		return 0
	}
	return time.Duration(float64(subs) * float64(p.Exposure) / float64(p.Cadence))
}

// Run is one stretch of tracking.
type Run struct {
	plan.Span               // from tracking at the start angle until the last sub is over
	By        time.Time     // when it must be: the early bound less the margin, or the window's end
	Spent     bool          // the derotator's travel ends it, not the window
	Start     sky.Angle     // mechanical
	Rewind    time.Duration // before it, to turn the stage from the end of the run before
}

// Runs lays the runs of the night from an instant on, each as long as it can be, for a sequence that does not end:
// near to what plan.Course.Schedule gives, which weighs and waits. A run's last sub is over half a cadence before it must be, as on the average.
func (p *Path) Runs(from time.Time) []Run {
	var runs []Run
	pace := PaceOf(p.sky.Kit.SubsFor(p.Target))
	var at *sky.Angle
	for w, window := range p.Windows {
		now := later(window.From, from)
		free := now
		if n := len(runs); n > 0 {
			free = runs[n-1].To
		}
		for now.Before(window.To) {
			run, end, ok := p.run(w, now, free, at, pace)
			if !ok {
				now = now.Add(Step)
				continue
			}
			runs = append(runs, run)
			now, free, at = run.To, run.To, &end
		}
	}
	return runs
}

// run is one run in a window, from now or from when the stage, free earlier, has turned to its start; ok is
// false if no sub fits it. end is the mechanical angle at its end.
func (p *Path) run(w int, now, free time.Time, at *sky.Angle, pace Pace) (r Run, end sky.Angle, ok bool) {
	window, d := p.Windows[w], p.sky.Kit.Derotator
	stretch := p.stretch(w, now, window.To)
	if at != nil {
		r.Rewind = rewindTime(d, *at, stretch.Start)
		if ready := free.Add(r.Rewind + p.sky.Kit.Subs.Loop); ready.After(now) {
			if now = ready; !now.Before(window.To) {
				return r, 0, false
			}
			stretch = p.stretch(w, now, window.To)
		}
	}
	r.Start, r.Spent, r.From, r.By = stretch.Start, stretch.Spent, now, stretch.Until
	if r.Spent {
		r.By = r.By.Add(-d.Margin)
	}
	if r.By.Sub(now) < pace.Settle+pace.Least {
		return r, 0, false
	}
	r.To = now.Add(pace.Settle + max(pace.Least, r.By.Sub(now)-pace.Settle-pace.Cadence/2))
	turned := p.at(w, r.To).chi - p.at(w, now).chi
	return r, r.Start + sky.Angle(d.Sense)*turned, true
}

func rewindTime(d kit.Derotator, from, to sky.Angle) time.Duration {
	return time.Duration(float64((to - from).Abs()) / float64(d.RewindSpeed) * float64(time.Second))
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}
