package ui_test

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

func TestSubsAtAKeyAreRefusedInTheWordsThatAScriptHears(t *testing.T) {
	_, _, err := checklist.Say(checklist.Night{}, checklist.StartSubs{}, time.UTC)
	s := own(t, 120, 40).press("s").sees(err.Error())
	s.press("u").sees("there is nothing to undo").press("y").sees("there is nothing to redo")
	s.press("x").sees("is a key of the screen two stars: go there with 3")
}

// On the Run screen of a night in which nothing can be done yet, each letter that says something somewhere
// changes what is seen. Arrows, enter and esc only move and close, and there is nothing to.
func TestNoKeyIsSilentOnRun(t *testing.T) {
	moves := []string{"up", "down", "left", "right", "enter", "esc", "tab", "shift+tab", "q", "ctrl+c", "K"}
	onlyDraws := []string{"+", "=", "-", ",", ".", "<", ">", "v", "0", "d", "j", "k", "1"} // nothing is said with them
	fresh := own(t, 120, 40)
	for _, b := range fresh.model.Keys().All() {
		for _, k := range b.Keys {
			if slices.Contains(moves, k) || slices.Contains(onlyDraws, k) {
				continue
			}
			s := ownOf(t, 120, 40, func(k *kit.Kit) { k.Targets = k.Targets[:1] })
			before := s.text()
			s.press(k)
			assert.NotEqual(t, before, s.text(), "the key %s, %s", k, b.Words)
		}
	}
}
