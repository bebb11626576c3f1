package record

import (
	"fmt"
	"io"
	"slices"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
)

// Text writes the record for a terminal.
func (r Record) Text(to io.Writer) error {
	_, err := io.WriteString(to, r.document().text())
	return err
}

// Markdown writes the record as Markdown.
func (r Record) Markdown(to io.Writer) error {
	_, err := io.WriteString(to, r.document().markdown())
	return err
}

func (r Record) document() document {
	var d document
	for _, night := range r.Nights {
		r.night(&d, night)
	}
	r.totals(&d)
	return d
}

func (r Record) night(d *document, n Night) {
	local := words.WallOf(n.Span.From, n.Span.To, r.Kit.Site.Zone)
	d.heading(1, fmt.Sprintf("Night of %s at %s", n.Date, r.Kit.Site.Name))
	d.lines("All "+local.Heading()+".",
		"Subs are counted from when they were said to start and stop, with the exposures and overheads of the kit as it is now.",
		axisLine(n))
	if len(n.Targets) == 0 {
		d.lines("No run was recorded.")
	}
	for _, target := range n.Targets {
		r.target(d, target, local)
	}
	r.rewinds(d, n, local)
	r.rest(d, n, local)
}

func axisLine(n Night) string {
	text := fmt.Sprintf("Axis: tilt %s towards azimuth %s, ± %s", words.Degrees(n.Axis.Tilt, 1), words.Direction(n.Axis.Toward, 0), words.Degrees(n.Axis.Uncertainty, 1))
	if n.AxisHow != "" {
		return text + "; " + n.AxisHow + "."
	}
	return text + "; from the kit."
}

func (r Record) target(d *document, t Target, local words.Wall) {
	d.heading(2, t.Name)
	d.lines(commonLines(t)...)
	var runs, subs [][]string
	for _, run := range t.Runs {
		runs = append(runs, []string{fmt.Sprint(run.Number), local.Minute(run.From), endOfRun(run, local), words.Direction(run.CameraAngle, 1), run.Group,
			words.Degrees(run.StartAngle, 1) + " → " + words.Degrees(run.EndAngle, 1) + markRead(run), fmt.Sprint(run.Subs()), words.Lasting(exposed(run.Filters))})
		for _, f := range run.Filters {
			subs = append(subs, []string{fmt.Sprint(run.Number), f.Filter, fmt.Sprintf("%d × %s", f.Count, words.Exposure(f.Exposure)),
				local.Second(f.First), local.Second(f.Last), numbers(f.Numbers)})
		}
	}
	d.table([]string{"run", "start", "end", "camera", "group", "derotator", "subs", "exposed"}, runs)
	d.lines(twilightLines(t)...)
	d.table([]string{"run", "filter", "subs", "first starts", "last ends", "number in the run"}, subs)
	var frames [][]string
	for _, run := range t.Runs {
		if f := run.Frames; f != nil {
			frames = append(frames, []string{fmt.Sprint(run.Number), fmt.Sprint(f.Measured), words.Arcseconds(sky.Angle(f.HFDArcsec)*sky.Arcsecond, 2), fmt.Sprintf("%.2f", f.Elongation), f.fieldWords()})
		}
	}
	if len(frames) > 0 {
		d.table([]string{"run", "lights measured", "half-flux diameter", "elongation", "the field"}, frames)
	}
	var placed [][]string
	for _, run := range t.Runs {
		if row, ok := placedRow(run, local); ok {
			placed = append(placed, row)
		}
	}
	if len(placed) > 0 {
		d.table([]string{"run", "lights placed", "camera angle seen", "within", "a pixel", "the picture", "the stage"}, placed)
	}
	d.lines(offLines(t)...)
}

func endOfRun(run Run, local words.Wall) string {
	if run.Open {
		return "not said"
	}
	return local.Minute(run.To)
}

// markRead marks an end angle that somebody read.
func markRead(run Run) string {
	if run.EndRead {
		return ", read"
	}
	return ""
}

func exposed(filters []FilterSubs) (total time.Duration) {
	for _, f := range filters {
		total += f.Exposed()
	}
	return total
}

// commonLines say which runs go together and what all share: what matters first in stacking.
func commonLines(t Target) (lines []string) {
	for _, g := range t.Groups {
		line := fmt.Sprintf("Group %s, camera angle %s: run %s", g.Name, words.Direction(g.CameraAngle, 1), words.List(g.Runs))
		if len(g.Runs) > 1 {
			line += "; their frames coincide"
		}
		for _, number := range g.Turned {
			i := slices.IndexFunc(t.Runs, func(run Run) bool { return run.Number == number })
			line += fmt.Sprintf(", run %d turned by %s", number, words.Direction(t.Runs[i].CameraAngle-g.CameraAngle, 0))
		}
		lines = append(lines, line+".")
	}
	switch {
	case len(t.Groups) > 1:
		lines = append(lines, fmt.Sprintf("Common to all runs: %s of a frame; the largest upright crop of run %d's frame is %d × %d pixels, %s.",
			words.Percent(t.Common.Share, 1), t.Groups[0].Runs[0], t.Crop.Width, t.Crop.Height, words.Percent(t.Common.CropShare, 1)))
	case len(t.Groups) == 0:
		lines = append(lines, "No subs were counted.")
	}
	return lines
}

func (r Record) rewinds(d *document, n Night, local words.Wall) {
	var rows [][]string
	for _, w := range n.Rewinds {
		from, turning, pause := "not read", "", ""
		if w.From != nil {
			from, turning = words.Degrees(*w.From, 1), words.ToSecond(w.Turning)
		}
		if w.Pauses {
			pause = words.ToSecond(w.Pause)
		}
		rows = append(rows, []string{local.Minute(w.At), from, words.Degrees(w.To, 1), turning, pause})
	}
	if len(rows) > 0 {
		d.heading(2, "Rewinds")
		d.table([]string{"done", "from", "to", "turning, by the kit", "without exposures"}, rows)
	}
}

func (r Record) rest(d *document, n Night, local words.Wall) {
	var strays, mentions, owed [][]string
	for _, s := range n.Strays {
		strays = append(strays, []string{local.Minute(s.From), local.Minute(s.To), s.Filter, s.Why})
	}
	for _, m := range n.Mentions {
		mentions = append(mentions, []string{local.Minute(m.At), m.Kind, m.Text})
	}
	for _, o := range n.Owed {
		state := o.State
		if !o.Done {
			state = "owed; " + state
		}
		if o.Sky.Length() > 0 {
			state += fmt.Sprintf("; the morning's sky is right from %s to %s", local.MinuteFrom(o.Sky.From), local.Minute(o.Sky.To))
		}
		owed = append(owed, []string{o.Frames, o.For, state})
	}
	if len(strays) > 0 {
		d.heading(2, "Exposures in no count")
		d.table([]string{"from", "to", "filter", "why"}, strays)
	}
	if len(mentions) > 0 {
		d.heading(2, "Notes")
		d.table([]string{"time", "what", "text"}, mentions)
	}
	if len(owed) > 0 {
		d.heading(2, "Calibration frames")
		d.table([]string{"frames", "for", "state"}, owed)
	}
	if len(n.SkyLacks) > 0 {
		d.lines(fmt.Sprintf("When the sky is right for flats would be known with %s in the kit.", words.List(n.SkyLacks)))
	}
}

func (r Record) totals(d *document) {
	d.heading(1, "Totals over "+words.Count(r.Of, "night"))
	for _, name := range targets(r.Totals) {
		var rows [][]string
		var all time.Duration
		for _, t := range r.Totals {
			if t.Target != name {
				continue
			}
			wanted, left := "no goal", ""
			if t.Wanted > 0 {
				wanted, left = fmt.Sprint(t.Wanted), fmt.Sprint(t.Left())
			}
			all += t.Exposed()
			rows = append(rows, []string{t.Filter, words.Exposure(t.Exposure), fmt.Sprint(t.Count), wanted, left, words.Lasting(t.Exposed()), fmt.Sprint(t.Nights)})
		}
		d.heading(2, name)
		d.table([]string{"filter", "exposure", "subs", "goal", "left", "exposed", "nights"}, rows)
		d.lines(words.Lasting(all) + " exposed in all.")
	}
}
