package ui

import (
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// drawHeader says whose night it is, the time, and where the target stands.
func (m Model) drawHeader(area draw.Area) {
	zone := m.config.Kit.Site.Zone
	local, utc := m.now.In(zone).Format("15:04:05 MST"), m.now.UTC().Format("15:04:05")+" UT"
	x := area.PutRight(area.Width(), 0, theme.Faint, longestThatFits(area.Width()/2, local+"   "+utc, local, m.now.In(zone).Format("15:04")))
	role := theme.Faint
	if m.mark() != "" {
		role = theme.Caution
	}
	site := m.config.Kit.Site.Name
	area.Put(0, 0, role, longestThatFits(x-1, strings.TrimPrefix(m.mark()+" · "+site, " · "), m.mark()+site[:0], shortMark(m.mark())))
	if m.tonight == nil || area.Height() < 2 {
		return
	}
	target := m.tonight.Target
	place := m.whereItStands()
	end := area.PutRight(area.Width(), 1, theme.Text, longestThatFits(area.Width()*3/5, place...))
	area.Put(0, 1, theme.Text, longestThatFits(end-2, m.targetWords(), target.Name))
}

// mark says what kind of night is shown, if not the real one: it stands on every screen.
func (m Model) mark() string {
	switch {
	case m.config.Kit.Example:
		return "EXAMPLE NIGHT"
	case m.config.Clock.Replaying():
		return "REPLAY of " + m.night()
	case m.orphaned:
		return "FOLLOWING NOBODY"
	case m.follows != "":
		return "FOLLOWING"
	}
	return ""
}

func shortMark(mark string) string {
	first, _, _ := strings.Cut(mark, " ")
	return first
}

// targetWords is the target's number with its name for people, if it has one.
func (m Model) targetWords() string {
	target := m.tonight.Target
	if name := target.Object.Name(); target.Object.ID != "" && name != target.Name {
		return target.Name + ", " + name
	}
	return target.Name
}

func (m Model) whereItStands() []string {
	p := m.run.Place
	if p.Altitude < 0 {
		return []string{"below the horizon", "below"}
	}
	way := "sinking"
	if m.run.Climbing {
		way = "climbing"
	}
	up := fmt.Sprintf("%.0f° up, ", p.Altitude.Degrees())
	filter := ""
	if m.log.Subs != nil && !m.run.Progress.Waiting {
		f := m.run.Progress.Now.Filter
		filter = fmt.Sprintf(" · %s %s", f.Name, exposure(f.Exposure))
	}
	return []string{
		up + CompassWords(p.Azimuth) + ", " + way + filter,
		up + CompassWords(p.Azimuth) + ", " + way,
		up + compassLetters(p.Azimuth),
	}
}

// exposure prints a shutter time.
func exposure(d time.Duration) string { return facts.ExposureText(d) }

// tilt prints how the axis is taken to lean, for the sentence on what the bounds assume.
func (m Model) tilt() string {
	a := m.tonight.Axis
	if a.Tilt == 0 && a.Uncertainty == 0 {
		return "axis taken as levelled"
	}
	digits := 1
	if a.Uncertainty < 0.1*sky.Degree {
		digits = 2
	}
	return fmt.Sprintf("axis tilt %.1f° toward %s ± %.*f°", a.Tilt.Degrees(), CompassWords(a.Toward), digits, a.Uncertainty.Degrees())
}

// sinceReading says how old the knowledge of the derotator's angle is.
func (m Model) sinceReading() string {
	a := m.log.Anchor
	if a == nil {
		return ""
	}
	return fmt.Sprintf("%s at %s", a.Why, hourMinute(a.At, m.config.Kit.Site.Zone))
}

// rateWords says how the derotator turns.
func (m Model) rateWords() []string {
	rate := m.run.Rate.DegreesPerHour()
	if sky.Angle(m.run.Rate).Abs() < sky.Angle(0.05*sky.DegreePerHour) {
		return []string{"standing still: about to turn the other way", "standing still"}
	}
	trend := "slowing"
	if m.run.Quickening {
		trend = "quickening"
	}
	return []string{fmt.Sprintf("turning %.1f° an hour, %s", abs(rate), trend), fmt.Sprintf("%.1f°/h, %s", abs(rate), trend), fmt.Sprintf("%.1f°/h", abs(rate))}
}

func abs(x float64) float64 { return max(x, -x) }
