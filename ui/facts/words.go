package facts

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/draw"
)

// Sentences returns the night's facts as ready text by the names that the checklist's sentences hold in
// braces. What is not known is left out; the sentence is then said in plain words.
func (r Run) Sentences(stars Stars) map[string]string {
	words := map[string]string{"target": r.Target.Name, "site": r.Kit.Site.Name}
	d := r.Kit.Derotator
	words["travel_from"], words["travel_to"] = draw.DegreesText(d.Min), draw.DegreesText(d.Max)
	r.windowWords(words)
	r.runWords(words)
	starWords(stars, words)
	r.guideWords(words)
	r.recentreWords(words)
	if holds, ok := plan.MainTelescope(r.Kit.Optics).RefocusAt(0); ok {
		words["refocus_kelvin"] = fmt.Sprintf("%.0f", holds.ChangeK)
	}
	return words
}

func (r Run) windowWords(words map[string]string) {
	event := func(name string, e sky.Event) {
		if e.OK {
			words[name] = r.local(e.At)
		}
	}
	event("dusk", r.Night.Twilight.AstronomicalDusk)
	event("dawn", r.Night.Twilight.AstronomicalDawn)
	if len(r.Windows) > 0 {
		words["window_from"], words["window_to"] = r.local(r.Windows[0].From), r.local(r.Windows[len(r.Windows)-1].To)
	}
	if n := len(r.Dusk().Runs); n > 0 {
		subs := 0
		for _, c := range r.Dusk().Counts() {
			subs += c.Count
		}
		words["runs"], words["rewinds"], words["subs_fit"] = counted(n, "run"), counted(len(r.Dusk().Rewinds), "rewind"), fmt.Sprint(subs)
	}
}

// counted is a number with its noun: 1 run, 3 runs.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func (r Run) runWords(words map[string]string) {
	if next := r.Next(); next.OK {
		angle, lasts := draw.DegreesText(next.To), Lasting(next.Lasts)
		words["rewind_to"], words["next_run"] = angle, lasts
		if r.Anchor == nil {
			words["start_angle"], words["run_length"] = angle, lasts
			words["first_sub"] = r.local(next.Begins.Add(r.Kit.Subs.Settle))
		}
	}
	if r.Anchor != nil {
		if !r.Call.At.IsZero() {
			words["call_at"] = r.local(r.Call.At)
		}
		if n := r.LastNo(); n > 0 {
			words["last_sub"] = fmt.Sprint(n)
		}
		words["camera_angle"] = fmt.Sprintf("%.0f°", r.Course.OfJ2000(r.Course.CameraAngle(r.Angle, r.Now)).Degrees())
	}
}

func starWords(s Stars, words map[string]string) {
	if s.Chosen < len(s.Pairs) {
		first, second := s.Pairs[s.Chosen].First.Star.Name(), s.Pairs[s.Chosen].Second.Star.Name()
		words["star_1"], words["star_2"], words["pair"] = first, second, first+", then "+second
		if check, ok := s.Check(s.Chosen); ok {
			words["check_star"] = check.Star.Star.Name()
		}
	}
	if len(s.Focus) > 0 {
		words["focus_star"] = s.Focus[0].Star.Name()
	}
}

func (r Run) local(t time.Time) string { return t.In(r.Kit.Site.Zone).Format("15:04") }

// Lasting prints a length of time in words for a sentence: 45 s, 16 min, 1 h 52 min.
func Lasting(d time.Duration) string {
	d = d.Abs()
	switch {
	case d < 100*time.Second:
		return fmt.Sprintf("%d s", int(d.Round(time.Second).Seconds()))
	case d < time.Hour-30*time.Second:
		return fmt.Sprintf("%d min", int(d.Round(time.Minute).Minutes()))
	}
	minutes := int(d.Round(time.Minute).Minutes())
	if minutes%60 == 0 {
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
}
