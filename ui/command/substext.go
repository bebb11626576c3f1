package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/survey"
	"duskhand/sky/foreign"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/say"
)

// longestName is how many cells a file's name may take before it is shortened.
const longestName = 36

func writeSubsText(to io.Writer, s surveyed) error {
	var out strings.Builder
	if s.kit == nil {
		out.WriteString("No kit: pixels and UTC only; seconds of arc, and how fast the field would turn, need one. Make it with: duskhand kit new\n\n")
	}
	if h, other := s.otherCamera(); other {
		fmt.Fprintf(&out, "Frames of %d × %d pixels, where the kit's camera has %d × %d: seconds of arc hold if it is that camera and telescope.\n\n",
			h.Width*max(1, h.BinX), h.Height*max(1, h.BinY), s.kit.Camera.Width, s.kit.Camera.Height)
	}
	name := len("file")
	for _, f := range s.frames {
		name = min(longestName, max(name, draw.Width(f.name())))
	}
	fmt.Fprintf(&out, "%s  %-19s %8s  %-7s %-6s %6s %6s %6s %6s %8s  %16s %9s\n", padded("file", name), "start "+zoneOf(s), "exposure", "filter", "kind",
		"stars", "hfd ″", "px", "elong.", "sky ADU", "turned", "°/h")
	for _, f := range s.frames {
		writeFrameLine(&out, s, f, name)
	}
	out.WriteString("\n")
	for i, g := range s.groups {
		writeGroup(&out, s, i, g)
	}
	_, err := io.WriteString(to, out.String())
	return err
}

// otherCamera returns the header of the first light whose picture is not as large as the kit's camera makes it;
// binning may lose a row or column.
func (s surveyed) otherCamera() (h subs.Header, other bool) {
	for _, f := range s.frames {
		if s.kit == nil || f.measured == nil {
			continue
		}
		h = f.header
		across, up := max(1, h.BinX), max(1, h.BinY)
		if s.kit.Camera.Width/across != h.Width || s.kit.Camera.Height/up != h.Height {
			return h, true
		}
	}
	return subs.Header{}, false
}

func zoneOf(s surveyed) string {
	if len(s.frames) == 0 || s.kit == nil {
		return "UTC"
	}
	return words.ZoneName(s.frames[0].start.In(s.zone()))
}

func padded(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-draw.Width(text)))
}

func writeFrameLine(out *strings.Builder, s surveyed, f *folderFrame, name int) {
	shown := padded(draw.Shorten(draw.Unicode, f.name(), name), name)
	if f.start.IsZero() && f.unread != "" {
		fmt.Fprintf(out, "%s  not read: %s\n", shown, foreign.Name(strings.TrimPrefix(f.unread, filepath.Base(f.path)+": ")))
		return
	}
	exposure := "?"
	if f.header.Exposure != nil {
		exposure = words.Exposure(*f.header.Exposure)
	}
	kind := string(f.header.Kind)
	if kind == "" {
		kind = "?"
	}
	line := fmt.Sprintf("%s  %-19s %8s  %s %-6s %s %s", shown, words.DateSecond(f.start, s.zone()), exposure,
		padded(draw.Shorten(draw.Unicode, f.header.Filter, 7), 7), kind, starColumns(s, f), turnColumns(f))
	out.WriteString(strings.TrimRight(line, " ") + "\n")
	for _, note := range f.notes() {
		fmt.Fprintf(out, "%s  %s\n", strings.Repeat(" ", name), foreign.Name(note))
	}
}

func starColumns(s surveyed, f *folderFrame) string {
	m := f.measured
	if m == nil {
		return strings.Repeat(" ", 6+7+7+7+9)
	}
	arcsec := ""
	if a, ok := s.scale(m.HFD, f.header); ok {
		arcsec = fmt.Sprintf("%.2f", a)
	}
	return fmt.Sprintf("%6d %6s %6.2f %6.2f %8.1f", m.Count, arcsec, m.HFD, m.Elongation, m.Background)
}

func turnColumns(f *folderFrame) string {
	p := f.place
	if p == nil || !p.Compared {
		return ""
	}
	if !p.Rated {
		return fmt.Sprintf(" %16s", fmt.Sprintf("group %d", p.Group+1))
	}
	turned := words.Degrees(p.Turned, 3) + " ± " + words.Degrees(p.TurnedError, 3)
	return fmt.Sprintf(" %16s %9s", turned, words.Number(p.Rate.DegreesPerHour(), 2))
}

// name is the file's own, fit to be shown.
func (f *folderFrame) name() string { return foreign.Name(filepath.Base(f.path)) }

// notes is what is to be said of a frame beyond its figures.
func (f *folderFrame) notes() []string {
	var notes []string
	if f.unread != "" {
		notes = append(notes, "not measured: "+f.unread)
	}
	if p := f.place; p != nil && p.Why != "" {
		if p.New {
			notes = append(notes, fmt.Sprintf("group %d begins: %s", p.Group+1, say.Lineup(*p)))
		} else {
			notes = append(notes, "not compared: "+say.Lineup(*p))
		}
	}
	return append(notes, f.remarks...)
}

func writeGroup(out *strings.Builder, s surveyed, i int, g survey.Group) {
	object := g.Object
	if object == "" {
		object = "no object named"
	}
	fmt.Fprintf(out, "Group %d: %s, %s (%d compared)", i+1, object, words.Count(g.Lights, "light"), g.Compared)
	if g.Compared < 2 {
		out.WriteString(": too few to tell.\n")
		return
	}
	clock := func(t time.Time) string { return words.Minute(t, s.zone()) }
	since := ""
	if g.Since.After(g.From) {
		since = fmt.Sprintf("Something changed before %s; since then the", clock(g.Since))
	} else {
		since = "The"
	}
	fmt.Fprintf(out, ", middles from %s to %s. %s camera turned %s ± %s", clock(g.From), clock(g.To), since,
		words.Degrees(g.Rate.Times(time.Hour), 3), words.AnHour(g.RateError, 3))
	said, ok := g.Turning()
	if !ok {
		fmt.Fprintf(out, "; %s.\n", s.skies.why(g.Object))
		return
	}
	fmt.Fprintf(out, "; with the derotator off it would have turned %s (%s).\n  At its end: %s\n", words.SignedAnHour(g.Predicted, 2), g.Course.Target.Name, say.TurningSentence(said))
	if !g.AlarmAt.IsZero() {
		fmt.Fprintf(out, "  With the light of %s it was sure that the field turns.\n", clock(g.AlarmAt))
	}
}
