package kit

import (
	"encoding/json"
	"strconv"
	"strings"

	"duskhand/sky/decimal"
)

// Question is one key as a person is asked for it. Key is its path, of a list's first item too
// ("target.name"); Unit may be ""; Range says in words what Check accepts; Default is what holds without an
// answer, "" if nothing does.
type Question struct {
	Key, Prompt, Unit, Range, Example, Default string
}

// Questions returns what must be asked for a new kit, in the order of the file: the keys without a
// sensible default.
func Questions() []Question {
	var all []Question
	for _, t := range tables() {
		if t.list && t.atLeast == 0 {
			continue
		}
		for _, f := range fields() {
			if in, _ := f.split(); in == t.name && f.need == required {
				all = append(all, f.question())
			}
		}
	}
	return all
}

// AllQuestions returns the question for every key, in the order of the table of fields.
func AllQuestions() []Question {
	all := make([]Question, 0, len(fields()))
	for _, f := range fields() {
		all = append(all, f.question())
	}
	return all
}

// QuestionAbout returns the question for any key; found is false for what is none.
func QuestionAbout(key string) (q Question, found bool) {
	if q, found := joint(key); found {
		return q, true
	}
	f, found := fieldOf(key)
	if !found {
		return Question{}, false
	}
	return f.question(), true
}

func (f field) question() Question {
	q := Question{Key: f.key, Prompt: f.help, Unit: f.unit, Range: f.rangeText(), Example: f.example}
	if f.need == defaulted {
		q.Default = strings.Trim(literal(f.fallback), `"`)
	}
	return q
}

// Check returns nil if text, as a person typed it, will do for the question, or else a Fault without file
// and line.
func (q Question) Check(text string) error {
	if fault := checkAnswer(q.Key, text); fault != nil {
		return *fault
	}
	return nil
}

func checkAnswer(key, text string) *Fault {
	if _, several := joint(key); several {
		if fault, found := NewSketch(map[string]string{key: text}).Fault(key); found {
			return &fault
		}
		return nil
	}
	f, found := fieldOf(key)
	if !found {
		return &Fault{Key: key, Problem: unknown(key)}
	}
	v, problem := f.read(f.typed(text))
	if problem == "" && key == "target.name" {
		_, problem = find(v.text)
	}
	if problem != "" {
		return &Fault{Key: key, Problem: problem}
	}
	return nil
}

func fieldOf(key string) (field, bool) {
	for _, f := range fields() {
		if f.key == key {
			return f, true
		}
	}
	return field{}, false
}

// typed returns what a person typed as TOML would give it: a number if the field may be one and it looks
// like one, else text. Quotes are not needed.
func (f field) typed(text string) any {
	text = strings.TrimSpace(text)
	switch f.kind {
	case whole, sense:
		if n, err := strconv.ParseInt(decimal.Plain(text), 10, 64); err == nil {
			return n
		}
	case number, latitude, longitude, spectral:
		if x, err := decimal.Parse(text); err == nil {
			return x
		}
	case textList:
		return typedWords(text)
	case choice:
		return f.chosen(text)
	}
	return text
}

// chosen returns the option that text begins like, if there is one only, else text.
func (f field) chosen(text string) string {
	found := text
	for _, option := range f.options {
		switch {
		case text == "" || !strings.HasPrefix(option, strings.ToLower(text)):
		case found != text:
			return text
		default:
			found = option
		}
	}
	return found
}

// typedWords reads a list as the file has it, or words with blanks between them.
func typedWords(text string) []any {
	var items []any
	if json.Unmarshal([]byte(text), &items) == nil { // the same syntax, but for trailing commas
		return items
	}
	for _, word := range strings.Fields(text) {
		items = append(items, word)
	}
	return items
}
