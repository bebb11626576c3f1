// Package steps is the screen "Steps": what have I not done yet?
package steps

import (
	"fmt"
	"slices"
	"strings"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/screens"
	"duskhand/ui/theme"
)

// chosenStep returns the step that the screen shows in full; ok is false when there are no steps.
func (m view) chosenStep() (checklist.StepState, bool) {
	if m.chosen >= len(m.List.States) {
		return checklist.StepState{}, false
	}
	return m.List.States[m.chosen], true
}

// waits says on the next step what is waited for, if it is.
func (m view) waits(s checklist.StepState) string {
	if m.Advice.Do != advice.Wait || m.Advice.From == nil || m.Log.Subs != nil || m.List.Next < 0 || s.ID != m.List.States[m.List.Next].ID {
		return ""
	}
	return m.Voice().ToDo()[0]
}

// View draws the screen.
func (r Model) View(s screens.Status, w screens.Window) {
	view{r, screens.ShownIn(s, w)}.draw(w.Area)
}

// view is the room with the status of an instant, for drawing.
type view struct {
	Model
	screens.Shown
}

func (m view) draw(area draw.Area) {
	strip := 0
	if area.Height() >= 20 {
		strip = 2
	}
	body, header := m.Body(area, strip)
	if m.typed.card != nil {
		m.typed.draw(body, m.Status)
		return
	}
	s, ok := m.chosenStep()
	if !ok {
		layout.Put(body, theme.Answer, "The checklist is empty.")
		return
	}
	y := m.drawStage(body, s, header)
	if body.Width() >= roomy {
		m.drawBeside(body.Area(0, y, body.Width(), body.Height()-y), s)
		return
	}
	y += m.drawStep(body, y, s)
	if body.Height() >= ruled {
		screens.RuleAcross(body, y)
	}
	m.drawStepTable(body.Area(0, y+1, body.Width(), body.Height()-y-1))
}

// From this width on the chosen step stands in full beside the list, and from this height on a rule parts the two where
// they stand above each other.
const roomy, ruled = 160, 14

// drawBeside puts the list at the left and the chosen step in full at the right of a rule.
func (m view) drawBeside(area draw.Area, s checklist.StepState) {
	list := area.Width() * 7 / 10
	m.drawStepTable(area.Area(0, 0, list, area.Height()))
	screens.RuleDown(area, list+1)
	m.drawStep(area.Area(list+3, 0, area.Width()-list-3, area.Height()), 0, s)
}

// drawStage writes the stage of the night large, or that one waits, with what is left of the stage, and returns the
// rows taken.
func (m view) drawStage(area draw.Area, s checklist.StepState, header int) int {
	title := strings.ToUpper(string(s.Stage))
	if m.waits(s) != "" {
		title = "WAIT"
	}
	rows := 0
	if area.Height() >= 16 {
		_, rows = draw.BigText(area.Area(0, 0, area.Width(), 5), m.Charset, theme.Answer, title)
	} else {
		area.Put(0, 0, theme.Answer, layout.Longest(area.Width(),
			m.Marked(layout.Band{Top: 0, Height: header}, []string{title})...))
		rows = 1
	}
	for _, stage := range m.List.Steps.StageStates(m.Log) {
		if stage.Stage == s.Stage {
			total := stage.Open + stage.Done + stage.Skipped + stage.Failed
			area.Put(0, rows, theme.Text, layout.Longest(area.Width(), m.stageWords(stage, total)...))
		}
	}
	return rows + 2
}

func (m view) stageWords(s checklist.StageState, total int) []string {
	left := m.List.Steps.Left(m.Log)
	words := fmt.Sprintf("%d of %d steps of this stage left", s.Open+s.Failed, total)
	if len(left) == 0 {
		return []string{words}
	}
	return []string{fmt.Sprintf("%s; %d left out or failed tonight still owed", words, len(left)), words}
}

// drawStep writes one step in full and returns the rows taken.
func (m view) drawStep(area draw.Area, y int, s checklist.StepState) int {
	rows, sentence := 0, s.Sentence(m.List.Facts)
	if waits := m.waits(s); waits != "" { // what to do now stands first; the step comes after
		rows, sentence = layout.Paragraph(area, y, theme.Answer, waits), "Then: "+sentence
	}
	rows += layout.Paragraph(area, y+rows, theme.Answer, sentence)
	rows += layout.Paragraph(area, y+rows, theme.Caution, m.ChangedPair(s))
	rows += layout.Paragraph(area, y+rows, theme.Text, m.calibration(s))
	rows += layout.Paragraph(area, y+rows, theme.Text, s.Why)
	if s.Caution != "" {
		rows += layout.Paragraph(area, y+rows, theme.Caution, "Careful: "+s.Caution)
	}
	for _, guard := range s.Unmet {
		if s.State == checklist.Open || s.State == checklist.NotYet {
			rows += layout.Paragraph(area, y+rows, theme.Caution, "First: "+guard.Say)
		}
	}
	if s.Text != "" && (s.State == checklist.Skipped || s.State == checklist.Failed) {
		rows += layout.Paragraph(area, y+rows, theme.Text, m.stateWords(s, true))
	}
	return rows
}

// calibration says on a step of the guiding what tonight's calibration is worth; "" where there is nothing to say.
func (m view) calibration(s checklist.StepState) string {
	if !say.Guides(s.Step) {
		return ""
	}
	return say.Calibration(m.Run)
}

func (m view) drawStepTable(area draw.Area) {
	table := m.laidOut(area.Width())
	v := draw.TableValues{Columns: table.columns(), Chosen: m.chosen}
	for _, s := range m.List.States {
		row := []string{s.Sentence(m.List.Facts), m.stateWords(s, table.long)}
		if table.stage > 0 {
			row = slices.Insert(row, 1, string(s.Stage))
		}
		v.Rows = append(v.Rows, row)
	}
	v.First = draw.TableFirst(max(0, m.chosen-1), m.chosen, len(v.Rows), area.Height())
	draw.Table(area, m.Charset, v)
}

// stateWords says what a step has come to.
func (m view) stateWords(s checklist.StepState, long bool) string {
	at := ""
	if !s.At.IsZero() {
		at = " " + words.Minute(s.At, m.Zone())
	}
	switch s.State {
	case checklist.Done:
		if !long {
			return "done"
		}
		return "done" + at
	case checklist.Skipped, checklist.Failed:
		if !long {
			return string(s.State)
		}
		return string(s.State) + ": " + s.Text
	case checklist.Over:
		return "over"
	}
	if off := say.CalibrationOff(m.Run); off != "" && s.Waiting() && say.Guides(s.Step) {
		return off
	}
	if s.Reopened && long {
		return "again"
	}
	return ""
}
