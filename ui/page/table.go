package page

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"duskhand/checklist/advice"
	"duskhand/sky/words"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// rows are the target's runs; those of the targets that the night is handed over to stand with these.
func (n Night) rows() (own []advice.RunRow) {
	for _, row := range n.Told.Run.Rows() {
		if row.Target == n.Told.Target.Name {
			own = append(own, row)
		}
	}
	return own
}

// The columns of the table of runs, from the left edge.
var columns = [...]struct {
	title string
	x     float64
}{{"run", 0}, {"from", 50}, {"to", 120}, {"derotator", 190}, {"limit", 340}, {"early", 420}, {"camera angle", 500}, {"subs", 620}}

// table writes the runs and returns where it ends.
func (s *svg) table(n Night, y float64) float64 {
	put := func(role theme.Role, cells ...string) {
		for i, cell := range cells {
			s.text(point{edge + columns[i].x, y}, letters, role, "start", cell)
		}
		y += lineHeight
	}
	var titles []string
	for _, c := range columns {
		titles = append(titles, c.title)
	}
	put(theme.Faint, titles...)
	zone := n.Told.Run.Kit.Site.Zone
	for i, row := range n.rows() {
		limit, early := "none", "none"
		if row.Limit.At.OK {
			limit = words.Minute(row.Limit.At.At, zone)
		}
		if row.Limit.Early.OK {
			early = words.Minute(row.Limit.Early.At, zone)
		}
		put(theme.Text, fmt.Sprint(i+1), words.MinuteFrom(row.From, zone), words.Minute(row.To, zone),
			words.Signed(row.StartAngle)+" → "+words.Signed(row.EndAngle), limit, early,
			words.Direction(row.CameraAngle, 1), fmt.Sprint(row.Subs))
	}
	if len(n.rows()) == 0 {
		put(theme.Caution, "No run: the target can't be used this night.")
	}
	for _, words := range n.order() {
		put(theme.Text, words)
	}
	return y
}

// order says in which order the subs are taken and why, in lines as wide as the page; none where the filters take turns.
func (n Night) order() []string {
	const columns = 115 // of letters of the usual size
	run := n.Told.Run
	order := say.Order(run.Order(), func(t time.Time) string { return words.Minute(t, run.Kit.Site.Zone) })
	if order == "" {
		return nil
	}
	return strings.Split(ansi.Wordwrap("Order of subs: "+order, columns, ""), "\n")
}
