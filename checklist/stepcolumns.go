package checklist

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"duskhand/plan/kit"
)

// draft is a step while it is read. Before and after are where the operator's file puts it.
type draft struct {
	Step
	path          string // of its table
	before, after string
}

// column is one key of a step: all that is known of it. Set takes the value that TOML gave and returns
// what is wrong with it, going on from the key, and what would be right; "" if nothing is.
type column struct {
	name     string
	required bool
	set      func(d *draft, raw any) (problem string)
}

// stepColumns returns the keys that every step takes.
func stepColumns() []column {
	return []column{
		{"id", true, idInto(func(d *draft) *string { return &d.ID })},
		{"do", true, textInto(func(d *draft) *string { return &d.Do })},
		{"plain", false, textInto(func(d *draft) *string { return &d.Plain })},
		{"why", true, textInto(func(d *draft) *string { return &d.Why })},
		{"caution", false, textInto(func(d *draft) *string { return &d.Caution })},
		{"screen", false, choiceInto(Screens(), func(d *draft) *string { return &d.Screen })},
		{"when", false, choiceInto(Whens(), func(d *draft) *string { return &d.When })},
		{"loop", false, flagInto(func(d *draft) *bool { return &d.Loop })},
		{"done_by", false, choicesInto(Proofs(), func(d *draft) *[]string { return &d.DoneBy })},
		{"reopened_by", false, choicesInto(Proofs(), func(d *draft) *[]string { return &d.ReopenedBy })},
		{"owed", false, flagInto(func(d *draft) *bool { return &d.Owed })},
	}
}

// ownColumns are those that only the program's own list takes: the operator's places a step beside
// another, whose stage it joins.
func ownColumns() []column {
	return append(stepColumns(),
		column{"stage", true, choiceInto(stageNames(), func(d *draft) *string { return (*string)(&d.Stage) })},
		column{"ends_runs", false, flagInto(func(d *draft) *bool { return &d.EndsRuns })})
}

// placeColumns say where the operator's file puts a step.
func placeColumns() []column {
	return []column{
		{"before", false, idInto(func(d *draft) *string { return &d.before })},
		{"after", false, idInto(func(d *draft) *string { return &d.after })},
	}
}

// guardColumns returns the keys of a guard, which is read into the last of the draft's guards.
func guardColumns() []column {
	last := func(d *draft) *Guard { return &d.Guards[len(d.Guards)-1] }
	return []column{
		{"after", true, func(d *draft, raw any) string {
			ids, problem := texts(raw, "a list of ids of steps")
			last(d).After = ids
			if problem == "" && len(ids) == 0 {
				return "is empty; name the steps that come first, or leave the guard out"
			}
			return problem
		}},
		{"force", true, func(d *draft, raw any) string {
			force, problem := oneOf(raw, []string{"must", "warn"})
			last(d).Must = force == "must"
			return problem
		}},
		{"say", true, textInto(func(d *draft) *string { return &last(d).Say })},
	}
}

func stageNames() []string {
	var names []string
	for _, s := range Stages() {
		names = append(names, string(s))
	}
	return names
}

// longest is how many characters a text may have: a few lines of a screen.
const longest = 300

func textInto(field func(*draft) *string) func(*draft, any) string {
	return func(d *draft, raw any) string {
		s, ok := raw.(string)
		switch {
		case !ok:
			return "is no text; give a sentence in double quotes"
		case strings.TrimSpace(s) == "" || utf8.RuneCountInString(s) > longest:
			return fmt.Sprintf("is empty or too long; give a sentence of at most %d characters", longest)
		case strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }):
			return "has an unprintable character or a new line; leave it out"
		}
		*field(d) = s
		return ""
	}
}

func idInto(field func(*draft) *string) func(*draft, any) string {
	return func(d *draft, raw any) string {
		s, ok := raw.(string)
		if !ok || !isID(s) {
			return fmt.Sprintf("= %s is no id; give lower-case words of letters and digits joined by hyphens, like \"hand-warmers\"", quoted(raw))
		}
		*field(d) = s
		return ""
	}
}

func isID(s string) bool {
	for _, word := range strings.Split(s, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return len(s) <= 40
}

func flagInto(field func(*draft) *bool) func(*draft, any) string {
	return func(d *draft, raw any) string {
		b, ok := raw.(bool)
		if !ok {
			return fmt.Sprintf("= %s is neither true nor false; give one of them without quotes", quoted(raw))
		}
		*field(d) = b
		return ""
	}
}

func choiceInto(options []string, field func(*draft) *string) func(*draft, any) string {
	return func(d *draft, raw any) (problem string) {
		*field(d), problem = oneOf(raw, options)
		return problem
	}
}

func choicesInto(options []string, field func(*draft) *[]string) func(*draft, any) string {
	return func(d *draft, raw any) string {
		chosen, problem := texts(raw, "a list of events")
		for _, each := range chosen {
			if _, wrong := oneOf(each, options); wrong != "" {
				return wrong
			}
		}
		*field(d) = chosen
		return problem
	}
}

// oneOf returns raw if it is one of the options, or else what is wrong.
func oneOf(raw any, options []string) (chosen, problem string) {
	s, ok := raw.(string)
	if ok && slices.Contains(options, s) {
		return s, ""
	}
	return "", fmt.Sprintf("= %s is unknown; %s", quoted(raw), meant(s, options))
}

// meant ends a sentence about an unknown word: the nearest that is known, or all of them.
func meant(word string, known []string) string {
	if near := kit.Nearest(word, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "give one of " + strings.Join(known, ", ")
}

func texts(raw any, wanted string) ([]string, string) {
	items, ok := raw.([]any)
	var all []string
	for _, item := range items {
		s, isText := item.(string)
		ok = ok && isText
		all = append(all, s)
	}
	if !ok {
		return nil, fmt.Sprintf("= %s is not right; give %s in square brackets, each in double quotes", quoted(raw), wanted)
	}
	return all, ""
}

// quoted returns a value as a message quotes it, short enough for one line.
func quoted(raw any) string {
	switch x := raw.(type) {
	case string:
		if utf8.RuneCountInString(x) > 40 {
			x = string([]rune(x)[:40]) + "…"
		}
		return fmt.Sprintf("%q", x)
	case int64, bool, float64:
		return fmt.Sprint(x)
	case []any:
		return fmt.Sprintf("a list of %d", len(x))
	case map[string]any:
		return "a table"
	}
	return "a date or time"
}
