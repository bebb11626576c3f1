package arrival

import (
	"cmp"
	"slices"
	"time"
)

// Offset is by how much another clock differs from ours: Behind, positive when ours is ahead of it, to ±Within.
type Offset struct {
	Behind, Within time.Duration
	Known          bool // false when there are too few frames, or they disagree
}

// The bounds of an offset; choices of ours.
const (
	fewestForOffset = 3                // that agree
	mostForOffset   = 8                // the latest; an offset may be put right in the night
	worthSaying     = 5 * time.Second  // beyond any doubt of the estimate
	usualDownload   = 10 * time.Second // when the kit's overhead is shorter than a frame takes to arrive
)

// Matters tells that the clocks surely differ by more than 5 s.
func (o Offset) Matters() bool { return o.Known && o.Behind.Abs()-o.Within > worthSaying }

// correction is what brings an instant of the other clock to ours: nought unless it matters, since each estimate
// is off by some seconds.
func (o Offset) correction() time.Duration {
	if !o.Matters() {
		return 0
	}
	return o.Behind
}

// LocalTime tells that the other clock is off as one would be that shows local time: by quarters of an hour,
// and how many.
func (o Offset) LocalTime() (ahead time.Duration, ok bool) {
	const quarter = 15 * time.Minute
	ahead = -o.Behind.Round(quarter)
	return ahead, o.Matters() && ahead != 0 && (o.Behind+ahead).Abs() <= o.Within+30*time.Second
}

// lag is how long after an instant of the other clock we saw what happened then. All of it is the clocks'
// difference but for what the way took, from nought to way.
type lag struct {
	seen     time.Time
	all, way time.Duration
}

// Clocks estimates by how much the clock behind DATE-OBS, and the one behind the files' times, differ from ours,
// from the frames that were seen coming. download is how long a frame may take from the end of its exposure to
// the folder.
//
// Nothing comes before it happened, so the smallest lag is at least the clocks' difference, and no more than
// that by the time that its way took. Others must agree with it: frames copied in later do not. Where both clocks
// may be one, the files' times tell its offset better, for their way is short.
func Clocks(frames []Frame, download time.Duration) (dates, files Offset) {
	var exposed, written []lag
	for _, f := range frames {
		if f.Already || f.Seen.IsZero() {
			continue
		}
		written = append(written, lag{f.Seen, f.Seen.Sub(f.Changed), f.Late})
		if start, ok := f.dated(); ok && f.Header.Exposure != nil {
			exposed = append(exposed, lag{f.Seen, f.Seen.Sub(start.Add(*f.Header.Exposure)), f.Late + max(download, usualDownload)})
		}
	}
	dates, files = offset(exposed), offset(written)
	if dates.Matters() && files.Matters() && (dates.Behind-files.Behind).Abs() <= dates.Within+files.Within {
		return files, files
	}
	if lag := dates.Behind + dates.Within; dates.Matters() && lag > 0 && lag < spacing(frames) {
		dates.Behind, dates.Within = lag/2, lag/2
	}
	return dates, files
}

// spacing returns how far apart the closest two starts among the frames are: no camera program can be longer at
// writing one in the long run. 0 of fewer than two.
func spacing(frames []Frame) time.Duration {
	var starts []time.Time
	for _, f := range frames {
		if start, ok := f.dated(); ok && !f.Already {
			starts = append(starts, start)
		}
	}
	slices.SortFunc(starts, time.Time.Compare)
	starts = slices.Compact(starts)
	least := time.Duration(0)
	for i := 1; i < len(starts); i++ {
		if apart := starts[i].Sub(starts[i-1]); least == 0 || apart < least {
			least = apart
		}
	}
	return least
}

func offset(lags []lag) Offset {
	slices.SortFunc(lags, func(a, b lag) int { return cmp.Or(b.seen.Compare(a.seen), cmp.Compare(a.all, b.all)) })
	lags = lags[:min(len(lags), mostForOffset)]
	if len(lags) < fewestForOffset {
		return Offset{}
	}
	least := slices.MinFunc(lags, func(a, b lag) int { return cmp.Or(cmp.Compare(a.all, b.all), cmp.Compare(a.way, b.way)) })
	agree := 0
	for _, l := range lags {
		if l.all-l.way <= least.all {
			agree++
		}
	}
	return Offset{Behind: least.all - least.way/2, Within: least.way / 2, Known: agree >= fewestForOffset}
}

// dated returns the start of the exposure by its header, on the capture computer's clock. A day without a time
// of day is no start.
func (f Frame) dated() (start time.Time, ok bool) {
	if f.Header.Start == nil {
		return time.Time{}, false
	}
	start = *f.Header.Start
	if start.Equal(start.Truncate(24*time.Hour)) && f.Changed.Sub(start).Abs() > time.Hour {
		return time.Time{}, false
	}
	return start, true
}
