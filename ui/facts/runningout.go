package facts

import (
	"math"
	"sync"
	"time"

	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/supplies"
	"duskhand/sky"
)

// Supplies that run out, each an alert of its own.
const (
	BatteryEnds AlertKind = "battery"
	DiskFills   AlertKind = "disk"
	FocusGoes   AlertKind = "focus"
	KeyholeNear AlertKind = "keyhole"
)

// RunningOut is something that does not last for the run that goes on and the next. At is when it is used up, the
// earliest that this may be.
type RunningOut struct {
	Kind AlertKind
	At   time.Time
	Fits int     // subs that the disk has room for
	Used float64 // of what the focus bears, 0 to 1 and above
}

// RunningOut returns what does not last to the end of the next run, the first to go first. freeBytes is nil when
// nobody knows how much room the disk has.
func (r Run) RunningOut(freeBytes *uint64) (all []RunningOut) {
	var until time.Time
	for _, find := range []func() (RunningOut, bool){
		r.keyhole, r.battery, func() (RunningOut, bool) { return r.disk(freeBytes) }, r.focusGoes,
	} {
		out, ok := find()
		if !ok || out.At.After(r.latestEnd()) {
			continue
		}
		if until.IsZero() {
			until = r.nextRunEnds() // which plans: only where it is asked for
		}
		if out.At.After(until) {
			continue
		}
		i := len(all)
		for i > 0 && out.At.Before(all[i-1].At) {
			i--
		}
		all = append(all[:i], append([]RunningOut{out}, all[i:]...)...)
	}
	return all
}

// latestEnd is when the last of the night's runs will be over at the latest: what lasts so long is told without planning.
func (r Run) latestEnd() time.Time {
	end := r.Now
	if r.Anchor != nil {
		end = later(end, r.Call.By)
	}
	if n := len(r.Windows); n > 0 {
		end = later(end, r.Windows[n-1].To)
	}
	return end
}

// nextRunEnds is when the next run will be over by the plan, or the one that goes on if none follows; now if none does.
func (r Run) nextRunEnds() time.Time {
	end := r.Now
	if r.Anchor != nil {
		end = later(end, r.Call.By)
	}
	return later(end, r.Tonight.offered.ends(r))
}

// offered keeps when the run would be over that could come next: it takes a search, every second asks, and within a minute
// it changes by no more than that.
type offered struct {
	mutex    sync.Mutex
	asked    time.Time
	whenOver time.Time
}

func (o *offered) ends(r Run) time.Time {
	o.mutex.Lock()
	defer o.mutex.Unlock()
	if minute := r.Now.Truncate(time.Minute); !o.asked.Equal(minute) {
		o.asked, o.whenOver = minute, time.Time{}
		if next := r.Next(); next.OK {
			o.whenOver = next.Begins.Add(next.Lasts)
		}
	}
	return o.whenOver
}

// keyhole counts to the earliest instant at which the target may be at the ceiling.
func (r Run) keyhole() (out RunningOut, ok bool) {
	c := r.Window.Ceiling
	if r.Window.ClosesBefore != plan.ByKeyhole || !c.Early.OK || r.Log.Subs == nil && r.Anchor == nil {
		return out, false
	}
	return RunningOut{Kind: KeyholeNear, At: c.Early.At}, true
}

// battery counts to when the usable part of it is used up, full at sunset.
func (r Run) battery() (out RunningOut, ok bool) {
	span, any := supplies.NightOf(r.Night)
	if !any || len(r.Kit.Power.Loads) == 0 {
		return out, false
	}
	p := supplies.PowerThrough(r.Kit.Power, span)
	if len(p.Lacks) > 0 || !p.Empty.OK {
		return out, false
	}
	return RunningOut{Kind: BatteryEnds, At: p.Empty.At}, true
}

// disk counts to the sub of the plan that finds no room any more.
func (r Run) disk(freeBytes *uint64) (out RunningOut, ok bool) {
	if freeBytes == nil {
		return out, false
	}
	room := supplies.DataOf(r.Kit.Camera, 1).Against(int64(min(*freeBytes, math.MaxInt64)))
	if room.SubsThatFit() > r.mostSubs() {
		return out, false
	}
	var subs []plan.Sub
	for _, sub := range r.Call.Subs {
		if sub.Exposure.To.After(r.Now) {
			subs = append(subs, sub)
		}
	}
	for _, run := range r.Ahead().Runs {
		subs = append(subs, run.Subs...)
	}
	full := room.FullAt(subs)
	if !full.OK {
		return out, false
	}
	return RunningOut{Kind: DiskFills, At: full.At, Fits: room.SubsThatFit()}, true
}

// mostSubs is how many subs the rest of the night could hold if one followed the other without a break.
func (r Run) mostSubs() int {
	shortest := r.Kit.Subs.Filters[0].Exposure
	for _, f := range r.Kit.Subs.Filters {
		shortest = min(shortest, f.Exposure)
	}
	return int(max(0, r.Night.Span.To.Sub(r.Now)) / max(time.Second, shortest))
}

// focusGoes counts to when the tube will have cooled by as much as the focus bears, by its last two readings.
func (r Run) focusGoes() (out RunningOut, ok bool) {
	d := r.Tonight.DriftOf(plan.MainTelescope(r.Kit.Optics))
	if !d.Known {
		return out, false
	}
	by := d.RefocusBy
	if d.Used >= 1 {
		by = sky.Event{At: d.NowAt, OK: true}
	}
	if !by.OK {
		return out, false
	}
	return RunningOut{Kind: FocusGoes, At: by.At, Used: d.Used}, true
}

// runOut are the alerts of what runs out: each warns once it comes within the next run; a keyhole only some minutes
// before, for the run's own call has counted down to it.
func (r Run) runOut(freeBytes *uint64) []Alert {
	alerts := []Alert{{Kind: KeyholeNear}, {Kind: BatteryEnds}, {Kind: DiskFills}, {Kind: FocusGoes}}
	for _, out := range r.RunningOut(freeBytes) {
		for i := range alerts {
			if alerts[i].Kind != out.Kind || out.Kind == KeyholeNear && (r.Log.Subs == nil || r.Now.Before(out.At.Add(-r.Kit.Mount.CeilingWarn))) {
				continue
			}
			alerts[i].Level = advice.Warning
		}
	}
	return alerts
}
