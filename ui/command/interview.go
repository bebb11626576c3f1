package command

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"duskhand/plan/kit"
	"duskhand/ui/keys"
)

// interview asks a person for what a new kit can't do without. Its words go to the stream for messages:
// they are no result.
type interview struct {
	in    *bufio.Reader
	words io.Writer
}

func newInterview(p Program) interview {
	return interview{bufio.NewReader(p.Streams.In), p.Streams.Err}
}

// errLeft is the person's leaving with Ctrl-D.
var errLeft = errors.New("stopped; nothing was written")

// fill asks until the answers make a kit, and returns its file.
func (i interview) fill(answers map[string]string) ([]byte, error) {
	fmt.Fprintln(i.words, "A few questions about your kit. An empty line leaves one open for later; Ctrl-D leaves without writing.")
	if err := i.ask(answers, func(key string) bool { return !given(answers, key) }); err != nil {
		return nil, err
	}
	for {
		data, err := kit.Template(answers, keys.KitRows()...)
		var faults kit.Faults
		if !errors.As(err, &faults) {
			return data, err
		}
		fmt.Fprintf(i.words, "\nThese do not go together:\n%v\n", faults)
		again := questioned(faults)
		if len(again) == 0 {
			return nil, wrongUsef("--set: %w", err)
		}
		for key := range again {
			delete(answers, key)
		}
		if err := i.ask(answers, func(key string) bool { return again[key] }); err != nil {
			return nil, err
		}
	}
}

// given tells whether a question is answered, by its own key or by one of those that it is about.
func given(answers map[string]string, key string) bool {
	_, found := answers[key]
	switch key {
	case kit.PlaceKey:
		return found || answers["site.latitude"] != "" && answers["site.longitude"] != ""
	case kit.FiltersKey:
		return found || answers["subs.filter.name"] != ""
	}
	return found
}

// questioned returns the keys of the faults that there is a question for. A fault counts a list's items,
// a question does not.
func questioned(faults kit.Faults) map[string]bool {
	keys := map[string]bool{}
	for _, fault := range faults {
		key := strings.ReplaceAll(fault.Key, "[1]", "")
		switch key {
		case "site.latitude", "site.longitude", "site.elevation_m":
			key = kit.PlaceKey
		}
		for _, q := range kit.AskedOfANewKit() {
			if q.Key == key {
				keys[q.Key] = true
			}
		}
	}
	return keys
}

// ask puts the questions that are wanted and gathers the answers.
func (i interview) ask(answers map[string]string, wanted func(key string) bool) error {
	for _, q := range kit.AskedOfANewKit() {
		if !wanted(q.Key) {
			continue
		}
		if q.Default == "" {
			q.Default = kit.Proposed(answers)[q.Key]
		}
		text, err := i.question(q.Question)
		if err != nil {
			return err
		}
		if text == "" && kit.Proposed(answers)[q.Key] != "" {
			text = q.Default
		}
		if text != "" {
			answers[q.Key] = text
		}
	}
	return nil
}

// left says what an empty line means.
func left(q kit.Question) string {
	if q.Default != "" {
		return q.Default + " then"
	}
	return "left open"
}

// question asks until the answer will do.
func (i interview) question(q kit.Question) (string, error) {
	wanted := strings.TrimSpace(q.Range + " " + q.Unit)
	if strings.HasSuffix(q.Range, q.Unit) {
		wanted = q.Range
	}
	if q.Default != "" {
		wanted += "; " + q.Default + " if left"
	}
	fmt.Fprintf(i.words, "\n%s\n%s: %s, for example %s\n", q.Prompt, q.Key, wanted, q.Example)
	for {
		fmt.Fprint(i.words, "> ")
		line, err := i.in.ReadString('\n')
		text := strings.TrimSpace(line)
		switch {
		case err != nil && !errors.Is(err, io.EOF):
			return "", fmt.Errorf("reading the answer: %w", err)
		case errors.Is(err, io.EOF) && text == "":
			fmt.Fprintln(i.words)
			return "", errLeft
		case text == "":
			fmt.Fprintln(i.words, left(q))
			return "", nil
		}
		fault := q.Check(text)
		if fault == nil {
			return text, nil
		}
		fmt.Fprintln(i.words, fault)
	}
}
