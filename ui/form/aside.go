package form

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// fact is one computed answer: its name, what it is, what may stand below it, and the rows that stay free for that.
type fact struct {
	name, value, below string
	room               int
}

// facts returns what the answers come to so far; the value of what is not known is "".
func (m Model) facts() []fact {
	o := m.optics
	list := []fact{{name: "pixel scale"}, {name: "field"}, {name: "focal ratio"}, {name: "critical focus zone"}, {name: "travel", room: 1}, m.dark(), m.longest()}
	if o.ScaleArcsecPerPixel > 0 {
		list[0].value = words.Arcseconds(sky.Angle(o.ScaleArcsecPerPixel)*sky.Arcsecond, 2) + "/px"
	}
	if o.Width > 0 {
		list[1].value = across(o.Width) + " × " + across(o.Height)
	}
	if o.FocalRatio > 0 {
		list[2].value = "f/" + strings.TrimSuffix(fmt.Sprintf("%.1f", o.FocalRatio), ".0")
		list[3].value = fmt.Sprintf("%.0f µm", o.ZoneUM)
	}
	if o.Travel > 0 {
		list[4].value = strings.TrimPrefix(words.Signed(o.Travel), "+")
	}
	return list
}

// across prints a field's width: 2.8°, or 41′.
func across(a sky.Angle) string {
	if a < sky.Degree {
		return words.Arcminutes(a, 0)
	}
	return words.Degrees(a, 1)
}

// shownIn returns the zone that times are shown in, and its mark: UT until the site's own is known.
func (m Model) shownIn() (*time.Location, string) {
	if m.sketch.Has(zoneKey) {
		return m.sketch.Kit.Site.Zone, ""
	}
	return time.UTC, " UT"
}

func (m Model) dark() fact {
	f := fact{name: "dark tonight", room: 2}
	if !m.of.HasSite {
		return f
	}
	zone, mark := m.shownIn()
	total := time.Duration(0)
	for _, d := range m.night.Dark {
		total += d.Length()
	}
	if len(m.night.Dark) == 0 {
		f.value = "never"
		return f
	}
	f.value = words.Lasting(total)
	first, last := m.night.Dark[0], m.night.Dark[len(m.night.Dark)-1]
	if len(m.night.Dark) == 1 {
		f.below = words.MinuteFrom(first.From, zone) + " to " + words.Minute(last.To, zone) + mark
	}
	return f
}

func (m Model) longest() fact {
	f := fact{name: "longest run", room: 2}
	if !m.of.HasRun {
		return f
	}
	if m.night.Longest.Length() <= 0 {
		f.value, f.below = "none", m.of.Name+" can't be used tonight"
		return f
	}
	zone, mark := m.shownIn()
	f.value, f.below = words.Lasting(m.night.Longest.Length()), m.of.Name+" from "+words.MinuteFrom(m.night.Longest.From, zone)+mark
	return f
}

// understood says how the place was read, beside the zone too, which may be another place's.
func (m Model) understood() string {
	key := m.fields[m.at].key
	if key != placeKey && (key != zoneKey || !m.sketch.Has(zoneKey)) || !m.place.known {
		return ""
	}
	said := "Understood: " + say.Place(m.place.site)
	if site := (kit.Site{Place: m.place.site, Zone: m.sketch.Kit.Site.Zone}); m.sketch.Has(zoneKey) {
		said += "; " + say.SeenThere(site, m.config.Now())
	}
	return said + "."
}

// drawFacts lists the facts beside the fields; each keeps its place.
func (m Model) drawFacts(area draw.Area) {
	y := 0
	for _, f := range m.facts() {
		value, role := f.value, theme.Text
		if value == "" {
			value, role = "not yet", theme.Faint
		}
		area.Put(0, y, theme.Faint, f.name)
		if draw.Width(f.name)+1+draw.Width(value) > area.Width() {
			y++
		}
		area.PutRight(area.Width(), y, role, value)
		y++
		if f.below != "" {
			area.PutRight(area.Width(), y, theme.Faint, draw.Shorten(m.config.Charset, f.below, area.Width()))
		}
		y += f.room
	}
}

// drawSummary says the known facts in one paragraph, below the fields.
func (m Model) drawSummary(area draw.Area) {
	var known []string
	for _, f := range m.facts() {
		if f.value != "" {
			known = append(known, f.name+" "+f.value)
		}
	}
	paragraph(area, 0, theme.Faint, strings.Join(known, " · "))
}
