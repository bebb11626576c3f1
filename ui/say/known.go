package say

import (
	"fmt"
	"math"
	"time"

	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Known returns the night's facts as ready text by the names that the checklist's sentences hold in braces. What is not
// known is left out; the sentence is then said in plain words.
func Known(r facts.Run, stars facts.Stars) map[string]string {
	known := map[string]string{"target": r.Target.Name, "site": r.Kit.Site.Name}
	d := r.Kit.Derotator
	known["travel_from"], known["travel_to"] = words.Signed(d.Min), words.Signed(d.Max)
	knownWindow(r, known)
	knownRun(r, known)
	knownStars(stars, known)
	knownCare(r, known)
	if holds, ok := plan.MainTelescope(r.Kit.Optics).RefocusAt(0); ok {
		known["refocus_kelvin"] = words.Kelvin(math.Round(holds.ChangeK))
	}
	return known
}

func knownWindow(r facts.Run, known map[string]string) {
	zone := r.Kit.Site.Zone
	if dusk := r.Night.Twilight.AstronomicalDusk; dusk.OK {
		known["dusk"] = words.MinuteFrom(dusk.At, zone)
	}
	if dawn := r.Night.Twilight.AstronomicalDawn; dawn.OK {
		known["dawn"] = words.Minute(dawn.At, zone)
	}
	if n := len(r.Windows); n > 0 {
		known["window_from"], known["window_to"] = words.MinuteFrom(r.Windows[0].From, zone), words.Minute(r.Windows[n-1].To, zone)
	}
	if len(r.Windows) > 0 {
		known["moon"] = moon(r.Tonight.MoonOnTarget(), func(t time.Time) string { return words.Minute(t, zone) })
	}
	if r.Anchor != nil {
		return // the plan of the evening is of no use in a run, and takes a schedule
	}
	if n := len(r.Dusk().Runs); n > 0 {
		subs := 0
		for _, c := range r.Dusk().Counts() {
			subs += c.Count
		}
		known["runs"], known["rewinds"], known["subs_fit"] = words.Count(n, "run"), words.Count(len(r.Dusk().Rewinds), "rewind"), fmt.Sprint(subs)
	}
}

func knownRun(r facts.Run, known map[string]string) {
	if next := r.Next(); next.OK {
		angle, lasts := words.Signed(next.To), words.Lasting(next.Lasts)
		known["rewind_to"], known["next_run"] = angle, lasts
		if r.Anchor == nil {
			known["start_angle"], known["run_length"] = angle, lasts
			known["first_sub"] = words.Minute(next.Begins.Add(r.Kit.Subs.Settle), r.Kit.Site.Zone)
		}
	}
	if r.Anchor != nil {
		if !r.Call.At.IsZero() {
			known["call_at"] = words.Minute(r.Call.At, r.Kit.Site.Zone)
		}
		if n := r.LastNo(); n > 0 && !r.FieldTurns() && !r.AtLimit() { // else no sub is worth finishing
			known["last_sub"] = fmt.Sprint(n)
		}
		known["camera_angle"] = words.Direction(r.Course.OfJ2000(r.Course.CameraAngle(r.Angle, r.Now)), 0)
	}
}

func knownStars(s facts.Stars, known map[string]string) {
	if s.Chosen < len(s.Pairs) {
		first, second := s.Pairs[s.Chosen].First.Star.Name(), s.Pairs[s.Chosen].Second.Star.Name()
		known["star_1"], known["star_2"], known["pair"] = first, second, first+", then "+second
		if check, ok := s.Check(s.Chosen); ok {
			known["check_star"] = check.Star.Star.Name()
		}
	}
	if len(s.Focus) > 0 {
		known["focus_star"] = s.Focus[0].Star.Name()
	}
}

// knownCare is what the sentences of guiding, of bringing the target back and of unwinding the cables need.
func knownCare(r facts.Run, known map[string]string) {
	if g, ok := r.GuideNow(); ok && g.Verdict != guiding.Holds {
		known["guide_turned"] = words.DegreesAsRead(g.Aged.Angle.Abs())
	}
	known["recentre"] = "take a short exposure"
	if to, ok := r.Recentring(); ok && to.Done {
		if nudge := Nudge(to.Nudge.Azimuth, to.Nudge.Altitude); nudge != "" {
			known["recentre"] = "nudge " + nudge
		}
	}
	if wound := wound(r); wound != "" {
		known["wound"] = wound
	}
}
