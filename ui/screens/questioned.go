package screens

import (
	"duskhand/checklist/advice"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/layout"
	"duskhand/ui/say"
	"duskhand/ui/theme"
)

// Questioned draws a question that one key answers in the place of the answer: the word large, the question, what each
// key does, what was wrong with the last key, and what the night does meanwhile.
func (s Status) Questioned(area draw.Area, p Prompt) {
	inner := layout.Inner(area)
	parts := []layout.Part{
		layout.NewPart("header", 2, 1, 4), layout.NewPart("word", AnswerRows(s.Width, s.Height), 1, 3),
		layout.NewPart("gap", 1, 1, 8), layout.NewPart("question", layout.RowsOf(inner, p.question), 1, 1),
		layout.NewPart("answers", layout.RowsOf(inner, p.Answers()), 1, 0),
		layout.NewPart("problem", max(1, layout.RowsOf(inner, p.problem)), 1, 2),
		layout.NewPart("room", 1, 1, 9), layout.NewPart("meanwhile", 1, 1, 5), layout.NewPart("strip", 2, 1, 6),
	}
	bands := layout.Stack(area.Height(), parts, "room")
	part := func(name string) draw.Area { return layout.Slice(area, bands[name]) }
	s.Header(part("header"))
	draw.BigText(part("word"), s.Charset, theme.Answer, p.word)
	layout.Paragraph(part("question"), 0, theme.Text, p.question)
	layout.Paragraph(part("answers"), 0, theme.Answer, p.Answers())
	layout.Paragraph(part("problem"), 0, theme.Caution, p.problem)
	layout.Put(part("meanwhile"), theme.Text, s.Marked(bands["header"], s.meanwhile())...)
	s.Strip(part("strip"))
}

// meanwhile is the answer of the night in one line.
func (s Status) meanwhile() (ways []string) {
	a := s.Voice().Answer()
	text := a.Word
	if text == "" {
		text, _ = words.Countdown(a.Until.Sub(s.Now))
	}
	for _, label := range s.Voice().Label() {
		ways = append(ways, text+"  "+label)
	}
	return append(ways, text)
}

// Calls tells that something is to be done at once: no question covers that, and all else steps back.
func (s Status) Calls() bool {
	if s.Tonight == nil {
		return false
	}
	_, turns := s.FieldTurns()
	return turns || s.Voice().Answer().Calls
}

// FieldTurns returns the alert that the field turns on the frames, if it calls and is not kept quiet: then what is
// counted down to matters less.
func (s Status) FieldTurns() (alert say.Alert, calls bool) {
	for _, a := range s.Heeded() {
		if a.Kind == facts.FieldTurns && a.Level == advice.Calling {
			return a, true
		}
	}
	return say.Alert{}, false
}
