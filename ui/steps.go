package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// The screen "Steps": what have I not done yet?

// deriveSteps follows the checklist, and keeps to the next step unless the operator has gone elsewhere.
func (m Model) deriveSteps() Model {
	m.steps = m.config.Steps.State(m.log)
	if m.tonight != nil {
		m.sentences = m.run.Sentences(m.stars)
	}
	m.nextStep = -1
	id := m.stepAdvised()
	for i, s := range m.steps {
		if s.ID == id {
			m.nextStep = i
		}
	}
	if !m.wandered {
		m.step = m.nextStep
		if m.step < 0 {
			m.step = len(m.steps) - 1 // all is done: the end of the list, not its beginning
		}
	}
	m.step = max(0, min(m.step, len(m.steps)-1))
	return m
}

// stepAdvised is the id of the step that the advice is about: by its name, or because what it offers proves it; else
// the checklist's next.
func (m Model) stepAdvised() string {
	if m.advice.Step != "" {
		return m.advice.Step
	}
	if m.advice.Offer != nil {
		kind, _, err := checklist.Say(m.log, m.advice.Offer, m.config.Kit.Site.Zone)
		for _, s := range m.steps {
			off := kind == checklist.KindDerotatorOff && s.EndsRuns
			if err == nil && s.Waiting() && (off || slices.Contains(s.DoneBy, kind)) {
				return s.ID
			}
		}
	}
	next, ok := m.config.Steps.Next(m.log)
	if !ok {
		return ""
	}
	return next.ID
}

// waits says on the next step what is waited for, if it is.
func (m Model) waits(s checklist.StepState) string {
	if m.advice.Do != advice.Wait || m.advice.From == nil || m.log.Subs != nil || m.nextStep < 0 || s.ID != m.steps[m.nextStep].ID {
		return ""
	}
	return m.toDo()[0]
}

// chosenStep returns the step that the screen shows in full; ok is false when there are no steps.
func (m Model) chosenStep() (checklist.StepState, bool) {
	if m.step >= len(m.steps) {
		return checklist.StepState{}, false
	}
	return m.steps[m.step], true
}

// stepNamed returns a step of the list by its id.
func (m Model) stepNamed(id string) (checklist.StepState, bool) {
	i := slices.IndexFunc(m.steps, func(s checklist.StepState) bool { return s.ID == id })
	if i < 0 {
		return checklist.StepState{}, false
	}
	return m.steps[i], true
}

// doStep is what settles a step that the operator has gone to: the event that proves it, if that is advised; else the
// step itself.
func (m Model) doStep(s checklist.StepState) nextThing {
	if s.State == checklist.Done || s.State == checklist.Over {
		return nextThing{}
	}
	if m.advice.Offer != nil {
		kind, _, err := checklist.Say(m.log, m.advice.Offer, m.config.Kit.Site.Zone)
		if err == nil && slices.Contains(s.DoneBy, kind) {
			return m.advised()
		}
	}
	return nextThing{"done", checklist.DoStep{Step: s.ID}}
}

// askReason asks why a step is left out, or what went wrong with it.
func (m Model) askReason(question string, action func(text string) checklist.Action) *prompt {
	return newPrompt(question, "", func(text string) (intent, error) {
		if strings.TrimSpace(text) == "" {
			return nil, errors.New("give a few words: the record of the night shows them")
		}
		return saying(action(text)), nil
	})
}

// openHelping goes to the screen that helps with the chosen step.
func (m Model) openHelping() (Model, tea.Cmd) {
	s, ok := m.chosenStep()
	if !ok || s.Screen == "" {
		m.notice = "no screen helps with this step; do it, then say so"
		return m, nil
	}
	if screen, known := keys.ScreenNamed(s.Screen); known {
		return m.show(screen), nil
	}
	return m, nil
}

func (m Model) drawSteps(area draw.Area) {
	header, footer := min(2, max(0, area.Height()-4)), m.footerRows()
	strip := 0
	if area.Height() >= 20 {
		strip = 2
	}
	m.drawHeader(slice(area, band{0, header}))
	m.drawFooter(slice(area, band{area.Height() - footer, footer}))
	m.drawStrip(slice(area, band{area.Height() - footer - strip, strip}))
	body := slice(area, band{header, max(0, area.Height()-header-footer-strip)})
	s, ok := m.chosenStep()
	if !ok {
		put(body, theme.Answer, "The checklist is empty.")
		return
	}
	y := m.drawStage(body, s, header)
	y += m.drawStep(body, y, s)
	m.drawStepTable(body.Area(0, y+1, body.Width(), body.Height()-y-1))
}

// drawStage writes the stage of the night large, with what is left of it, and returns the rows taken.
func (m Model) drawStage(area draw.Area, s checklist.StepState, header int) int {
	title := strings.ToUpper(string(s.Stage))
	rows := 0
	if area.Height() >= 16 {
		_, rows = draw.BigText(area.Area(0, 0, area.Width(), 5), m.config.Charset, theme.Answer, title)
	} else {
		area.Put(0, 0, theme.Answer, longestThatFits(area.Width(), m.marked(band{0, header}, []string{title})...))
		rows = 1
	}
	for _, stage := range m.config.Steps.StageStates(m.log) {
		if stage.Stage == s.Stage {
			total := stage.Open + stage.Done + stage.Skipped + stage.Failed
			area.Put(0, rows, theme.Text, longestThatFits(area.Width(), m.stageWords(stage, total)...))
		}
	}
	return rows + 2
}

func (m Model) stageWords(s checklist.StageState, total int) []string {
	left := m.config.Steps.Left(m.log)
	words := fmt.Sprintf("%d of %d steps of this stage left", s.Open+s.Failed, total)
	if len(left) == 0 {
		return []string{words}
	}
	return []string{fmt.Sprintf("%s; %d left out or failed tonight still owed", words, len(left)), words}
}

// drawStep writes one step in full and returns the rows taken.
func (m Model) drawStep(area draw.Area, y int, s checklist.StepState) int {
	rows := paragraph(area, y, theme.Answer, s.Sentence(m.sentences))
	rows += paragraph(area, y+rows, theme.Caution, m.changed(s))
	rows += paragraph(area, y+rows, theme.Caution, m.waits(s))
	rows += paragraph(area, y+rows, theme.Text, s.Why)
	if s.Caution != "" {
		rows += paragraph(area, y+rows, theme.Caution, "Careful: "+s.Caution)
	}
	for _, guard := range s.Unmet {
		if s.State == checklist.Open || s.State == checklist.NotYet {
			rows += paragraph(area, y+rows, theme.Caution, "First: "+guard.Say)
		}
	}
	return rows
}

func (m Model) drawStepTable(area draw.Area) {
	v := draw.TableValues{Columns: []draw.TableColumn{{Title: "step", Width: 0}, {Title: "stage", Width: 13}, {Title: "", Width: 24}}, Chosen: m.step}
	if area.Width() < 70 {
		v.Columns = []draw.TableColumn{{Title: "step", Width: 0}, {Title: "", Width: 9}}
	}
	for _, s := range m.steps {
		row := []string{s.Sentence(m.sentences), string(s.Stage), m.stateWords(s, true)}
		if area.Width() < 70 {
			row = []string{row[0], m.stateWords(s, false)}
		}
		v.Rows = append(v.Rows, row)
	}
	v.First = draw.TableFirst(max(0, m.step-1), m.step, len(v.Rows), area.Height())
	draw.Table(area, m.config.Charset, v)
}

// stateWords says what a step has come to.
func (m Model) stateWords(s checklist.StepState, long bool) string {
	at := ""
	if !s.At.IsZero() {
		at = " " + hourMinute(s.At, m.config.Kit.Site.Zone)
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
	if s.Reopened && long {
		return "again"
	}
	return ""
}
