package ui

import (
	"errors"
	"fmt"
	"strings"

	"duskhand/checklist"
	"duskhand/plan/share"
)

// A night divided among several targets.

// nextTurn is the stretch of the target that comes after the present one.
func (m Model) nextTurn() (share.Stretch, bool) {
	if turn, ok := m.run.HandOver(); ok {
		return turn, true
	}
	return m.run.Following()
}

func (m Model) turnLabel(turn share.Stretch) []string {
	zone := m.config.Kit.Site.Zone
	from, to := hourMinute(turn.Ready, zone), hourMinute(turn.To, zone)
	name := turn.Target.Name
	return []string{fmt.Sprintf("hand-over: %s is next, subs from %s to %s", name, from, to), fmt.Sprintf("%s, %s to %s", name, from, to), name}
}

// toNextTurn says what a hand-over is made of.
func (m Model) toNextTurn(turn share.Stretch) []string {
	start := ""
	if runs := turn.Runs.Runs; len(runs) > 0 {
		start = ", derotator to " + degreesText(runs[0].StartAngle)
	}
	name := turn.Target.Name
	return []string{fmt.Sprintf("Go to %s, centre a star near it, focus, frame%s, guide and see it correct; first say the target.", name, start), "Go to " + name + "; say so."}
}

// askDivide asks whether the rest of the night is divided among the kit's targets.
func (m Model) askDivide() *prompt {
	action := m.run.Divide()
	if len(action.Parts) < 2 && m.tonight.Shared() == nil {
		return newPrompt("fewer than two targets want subs: enter leaves it", "", func(string) (intent, error) { return nil, nil })
	}
	var names []string
	for _, p := range action.Parts {
		names = append(names, p.Target)
	}
	return newPrompt("divide the rest of the night among "+strings.Join(names, ", ")+"; n: one target alone", "divide", func(text string) (intent, error) {
		switch strings.ToLower(text) {
		case "":
			return saying(action), nil
		case "n":
			return saying(checklist.DivideNight{}), nil
		}
		return nil, errors.New("enter divides the night, n and enter leaves it to one target")
	})
}
