package command

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/checklist"
	"duskhand/checklist/told"
	"duskhand/plan/kit"
	"duskhand/sky/catalog"
)

// tellWords completes what can be said: the event with what it means, then what it takes.
func (p Program) tellWords(named string, before []string, begun string) ([]string, cobra.ShellCompDirective) {
	var words []string
	switch len(before) {
	case 0:
		for _, e := range told.Events() {
			words = append(words, e.Name+"\t"+e.Meaning)
		}
	case 1:
		words = p.tellArguments(named, before[0])
	}
	return begunWith(words, begun), cobra.ShellCompDirectiveNoFileComp
}

// tellArguments are what may follow an event, none where that is a number or free text.
func (p Program) tellArguments(named, event string) (words []string) {
	k, path, err := p.openKit(named)
	switch event {
	case "guide-check":
		return []string{"yes", "no"}
	case "target":
		return p.targetNames(named)
	case "sighted", "focused":
		return starNames()
	case "subs-started":
		if err == nil {
			for _, f := range k.Subs.Filters {
				words = append(words, f.Name)
			}
		}
	case "step-done":
		steps, _, err := stepsBeside(path)
		if err != nil { // completion is no place for faults
			steps = checklist.Steps()
		}
		for _, step := range steps.All() {
			words = append(words, step.ID)
		}
	}
	return words
}

// starNames returns the stars that have names of their own, those of the list for alignment and focus.
func starNames() (names []string) {
	const faintest = 3.5
	for _, star := range catalog.Stars(faintest) {
		if star.HasName() {
			names = append(names, star.Name())
		}
	}
	return names
}

// setWords completes the keys of --set: those that are asked first, each with what it is.
func setWords(begun string) []string {
	var words []string
	var asked []kit.Question
	for _, q := range kit.AskedOfANewKit() {
		asked = append(asked, q.Question)
	}
	for _, q := range append(asked, kit.AllQuestions()...) {
		if slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, q.Key+"=") }) {
			continue
		}
		words = append(words, q.Key+"=\t"+q.Prompt)
	}
	return begunWith(words, begun)
}

// begunWith returns the words that go on from what is typed, in capitals or not.
func begunWith(words []string, begun string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(word string) bool {
		return len(word) < len(begun) || !strings.EqualFold(word[:len(begun)], begun)
	})
}
