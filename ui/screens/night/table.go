package night

import (
	"fmt"
	"slices"

	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/say"
)

// row is a row of the table: a run with its number, or a part of the dark in which nothing is exposed.
type row struct {
	plan.Span
	number int
	run    advice.RunRow
	idle   *plan.Idle
	all    []plan.Idle // of an idle part: it and the others
}

// tableRows are the runs of the night, and what lies between them and is no rewind.
func (m view) tableRows() (rows []row) {
	for i, run := range m.Tonight.Rows() {
		rows = append(rows, row{Span: run.Span, number: i + 1, run: run})
	}
	all := m.Tonight.Idle()
	for _, idle := range all {
		rows = append(rows, row{Span: idle.Span, idle: &idle, all: all})
	}
	slices.SortStableFunc(rows, func(a, b row) int { return a.From.Compare(b.From) })
	return rows
}

func (m view) drawTable(area draw.Area, rows []row) {
	narrow := area.Width() < 60
	columns := []draw.TableColumn{{Title: "run", Width: 5}, {Title: "from", Width: 6},
		{Title: "to", Width: 6}, {Title: "limit (early–late)", Width: 20},
		{Title: "angle", Width: 15}, {Title: "camera", Width: 7, Align: draw.AlignRight}, {Title: "subs",
			Width: 5, Align: draw.AlignRight}, {Title: "", Width: 0}}
	if narrow {
		columns = []draw.TableColumn{columns[0], columns[1], columns[2], {Title: "angle", Width: 15},
			{Title: "subs", Width: 4, Align: draw.AlignRight}}
	}
	v := draw.TableValues{Columns: columns, Chosen: -1}
	for i, row := range rows {
		v.Rows = append(v.Rows, m.cells(row, narrow))
		if row.idle == nil && row.run.Open {
			v.Chosen = i
		}
	}
	v.First = min(m.scroll, max(0, len(rows)-1))
	if m.scroll == 0 && v.Chosen >= 0 {
		v.First = draw.TableFirst(0, v.Chosen, len(rows), area.Height())
	}
	draw.Table(area, m.Charset, v)
}

// cells are those of a row. A gap's reason stands under the limit, in full where the window is wide.
func (m view) cells(r row, narrow bool) []string {
	zone := m.Zone()
	if r.idle != nil {
		what := "gap"
		if r.idle.Why == plan.BetterStart {
			what = "wait"
		}
		from, to := say.EdgesOf(r.idle.Span, r.all, m.Run.Course.Dark, words.WallOf(r.From, r.From, zone))
		cells := []string{what, from, to, say.BriefIdle(*r.idle)}
		if narrow {
			return append(cells, "")
		}
		return append(cells, "", "", "", say.WhyIdle(*r.idle))
	}
	run := r.run
	cells := []string{fmt.Sprint(r.number), words.MinuteFrom(run.From, zone), words.Minute(run.To, zone), rowLimit(m, run),
		words.SignedTenths(run.StartAngle) + " → " + words.SignedTenths(run.EndAngle), words.Direction(run.CameraAngle, 0), fmt.Sprint(run.Subs), rowState(m, run)}
	if narrow {
		return []string{cells[0], cells[1], cells[2], cells[4], cells[6]}
	}
	return cells
}
