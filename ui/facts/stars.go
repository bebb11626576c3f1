package facts

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/sky"
)

// listed is how many pairs and focus stars the screens list: more than anyone goes through at dusk.
const listed = 24

// Stars is what the screens "Two stars" and "Focus star" show of one instant.
type Stars struct {
	At     time.Time
	Sky    *plan.StarSky
	Aim    sky.Horizontal // where the target will first be used
	AimAt  time.Time      // and when
	Usable bool           // false if it is not used any more tonight, and Aim is where it stands now
	Pairs  []plan.Pair    // once the first star has been said or sighted only with that, and its own pair first
	Chosen int            // of Pairs: whose stars the checklist names
	Change *Change        // another star in the place of the second that was chosen; nil if none is
	None   plan.NoPair    // when there are no pairs: why
	check  string         // the third star that was chosen for the pair that is settled; "" while none is

	Focus    []plan.Focus // for both telescopes, if one star can serve both
	Main     []plan.Focus
	Guide    []plan.Focus // empty without a guide telescope
	WhyNot   plan.NoFocus // why there is no focus star
	HasGuide bool
}

// StarsAt chooses stars for the alignment and the focus at an instant.
func (t *Tonight) StarsAt(now time.Time) Stars {
	s := Stars{At: now, Sky: t.Night.Stars(t.Axis, now)}
	aim, at := t.Course.Aim(now)
	s.Aim, s.AimAt = aim.Horizontal(), at
	_, s.Usable = plan.WindowFor(t.Windows, now)
	s.choosePairs(t, aim)
	var best *plan.Pair
	if len(s.Pairs) > 0 {
		best = &s.Pairs[0]
	} else {
		s.None, _ = s.Sky.WhyNoPair()
	}
	main := plan.MainTelescope(t.Kit.Optics)
	s.Main, s.WhyNot = s.Sky.FocusStars(aim, best, listed, main)
	guide, has := plan.GuideTelescope(t.Kit.Optics)
	if s.HasGuide = has; !has {
		s.Focus = s.Main
		return s
	}
	s.Guide, _ = s.Sky.FocusStars(aim, best, listed, guide)
	s.Focus, _ = s.Sky.FocusStars(aim, best, listed, main, guide)
	if len(s.Focus) == 0 {
		s.Focus = s.Main
	}
	return s
}

// Check returns the third star for a pair of the list. That of a pair that is settled stays as it was chosen with it,
// while it is fit.
func (s Stars) Check(i int) (plan.Check, bool) {
	if i >= len(s.Pairs) {
		return plan.Check{}, false
	}
	if i == 0 && s.check != "" {
		if check, ok := s.Sky.CheckStarNamed(s.Pairs[0], s.check); ok {
			return check, true
		}
	}
	return s.Sky.CheckStar(s.Pairs[i])
}

// Drift is what has become of the focus.
type Drift struct {
	Telescope plan.Telescope
	ZoneUM    float64
	Known     bool    // the temperature at the focus and one since are known
	FocusedC  float64 // °C
	NowC      float64
	NowAt     time.Time
	Used      float64 // share of half the zone that the drift has used up; 1: refocus
	Holds     plan.Refocus
	RefocusBy sky.Event // when it is used up if the temperature goes on as between its last two readings
}

// DriftOf derives what has become of a telescope's focus from the temperatures read.
func (t *Tonight) DriftOf(telescope plan.Telescope) Drift {
	d := Drift{Telescope: telescope, ZoneUM: telescope.ZoneUM()}
	focused, temperatures := t.Log.Focused, t.Log.Temperatures
	if focused == nil || focused.TempC == nil {
		return d
	}
	d.FocusedC = *focused.TempC
	holds, ok := telescope.RefocusAt(d.FocusedC)
	if !ok {
		return d
	}
	d.Holds = holds
	if len(temperatures) == 0 {
		return d
	}
	last := temperatures[len(temperatures)-1]
	d.Known, d.NowC, d.NowAt = true, last.C, last.At
	d.Used = telescope.FocusUsed(d.FocusedC, d.NowC)
	d.RefocusBy = refocusBy(temperatures, d)
	return d
}

// refocusBy carries the last two temperatures on in a straight line.
func refocusBy(temperatures []checklist.Temperature, d Drift) sky.Event {
	if len(temperatures) < 2 {
		return sky.Event{}
	}
	before, last := temperatures[len(temperatures)-2], temperatures[len(temperatures)-1]
	passed := last.At.Sub(before.At)
	if passed < time.Minute || last.C == before.C {
		return sky.Event{}
	}
	edge := d.Holds.AboveC
	if last.C < before.C {
		edge = d.Holds.BelowC
	}
	share := (edge - last.C) / (last.C - before.C)
	const farthest = 12 // times the span between the two readings: beyond, a line says nothing
	if share > farthest {
		return sky.Event{}
	}
	return sky.Event{At: last.At.Add(time.Duration(max(share, 0) * float64(passed))), OK: true}
}
