package page

import (
	"fmt"
	"math"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/theme"
)

// chart is the altitudes of target and Moon through the night, the twilight behind them, and the runs
// below.
type chart struct {
	span  plan.Span
	left  float64
	right float64
	top   float64
	foot  float64
}

// runsHeight is how much of the chart's height the bars of the runs take below the curves.
const runsHeight = 66.0

func (c chart) x(t time.Time) float64 {
	return c.left + (c.right-c.left)*float64(t.Sub(c.span.From))/float64(c.span.Length())
}

func (c chart) y(altitude sky.Angle) float64 {
	return c.foot - (c.foot-c.top)*altitude.Degrees()/90
}

func (s *svg) chart(n Night, number int, y float64) {
	t := n.Told.Run.Tonight
	c := chart{span: t.Span(), left: edge + 30, right: pageWidth - edge, top: y, foot: y + chartHeight - runsHeight - 24}
	s.twilight(c, t.Sun())
	s.heights(c)
	s.within(fmt.Sprintf("chart%d", number), point{c.left, c.top}, c.right-c.left, c.foot-c.top, func() {
		s.curve(c, t.Moon(), theme.Faint, true)
		for _, way := range t.Curves() {
			role := theme.Text
			if way.Present {
				role = theme.Answer
			}
			s.curve(c, way.Heights, role, false)
		}
	})
	s.text(point{c.right, c.top - 6}, 12, theme.Faint, "end", "altitude of the target; dashed: the Moon")
	s.hours(c, t.Kit.Site.Zone)
	s.runs(c, n)
}

// twilight shades the ground as bright as the sky is: in full at sunset, not at all at −18°.
func (s *svg) twilight(c chart, sun []sky.Angle) {
	step := c.span.Length() / time.Duration(max(1, len(sun)-1))
	for i, altitude := range sun[:len(sun)-1] {
		share := 1 + altitude.Degrees()/18
		if share <= 0 {
			continue
		}
		x := c.x(c.span.From.Add(step * time.Duration(i)))
		s.box(point{x, c.top}, c.x(c.span.From.Add(step*time.Duration(i+1)))-x+0.5, c.foot-c.top, theme.Line, 0.45*math.Min(1, share))
	}
}

func (s *svg) heights(c chart) {
	for _, altitude := range []float64{0, 30, 60, 90} {
		y := c.y(sky.Angle(altitude) * sky.Degree)
		s.line(point{c.left, y}, point{c.right, y}, 0.5, theme.Line, false)
		s.text(point{c.left - 6, y + 4}, 12, theme.Faint, "end", words.Degrees(sky.Angle(altitude)*sky.Degree, 0))
	}
}

func (s *svg) curve(c chart, heights []facts.Height, role theme.Role, dashed bool) {
	var points []point
	for _, h := range heights {
		points = append(points, point{c.x(h.At), c.y(h.Altitude)})
	}
	s.path(points, false, 2, role, dashed)
}

// hours marks the whole hours of the site's zone.
func (s *svg) hours(c chart, zone *time.Location) {
	first := c.span.From.In(zone).Truncate(time.Minute)
	for at := first; at.Before(c.span.To); at = at.Add(time.Minute) {
		if at.Minute() != 0 || at.Before(c.span.From) {
			continue
		}
		s.line(point{c.x(at), c.foot}, point{c.x(at), c.foot + 5}, 1, theme.Line, false)
		s.text(point{c.x(at), c.foot + 18}, 12, theme.Faint, "middle", at.Format("15"))
	}
}

// runs draws each run as a bar with its number and its angles at the ends.
func (s *svg) runs(c chart, n Night) {
	y := c.foot + 44
	for i, row := range n.rows() {
		from, to := c.x(row.From), c.x(row.To)
		s.line(point{from, y}, point{to, y}, 3, theme.Text, false)
		s.line(point{from, y - 7}, point{from, y + 7}, 1.5, theme.Text, false)
		s.line(point{to, y - 7}, point{to, y + 7}, 1.5, theme.Text, false)
		s.text(point{(from + to) / 2, y - 7}, 13, theme.Text, "middle", fmt.Sprintf("run %d", i+1))
		if to-from > 70 {
			s.text(point{from + 3, y + 19}, 11, theme.Faint, "start", words.Signed(row.StartAngle))
			s.text(point{to - 3, y + 19}, 11, theme.Faint, "end", words.Signed(row.EndAngle))
		}
	}
}

func zoneWords(k kit.Kit, date plan.Date) string {
	evening := time.Date(date.Year, date.Month, date.Day, 20, 0, 0, 0, k.Site.Zone)
	return evening.Format("MST (UTC-07:00)")
}
