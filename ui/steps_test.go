package ui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// cursor returns the line of the list that is chosen.
func cursor(s *session) string {
	for _, line := range strings.Split(s.text(), "\n") {
		if rest, chosen := strings.CutPrefix(strings.TrimSpace(line), "› "); chosen {
			return rest
		}
	}
	return ""
}

func TestTheStepsGoOnFromWhereTheCursorWasTakenAndEscComesBack(t *testing.T) {
	s := start(t, 120, 40, nil).press("b")
	next := cursor(s)
	assert.Contains(t, next, "Let the run go on")
	for range 20 {
		if s.press("down"); strings.HasPrefix(cursor(s), "Put the cap on") {
			break
		}
	}
	assert.Contains(t, cursor(s), "Put the cap on and take darks")
	s.press("space")
	assert.Contains(t, cursor(s), "Take bias frames", "one space settles it, and the cursor goes on")
	s.press("space")
	assert.Contains(t, cursor(s), "See that the night's frames are on the disk", "and the next one the next")
	s.press("esc")
	assert.Equal(t, next, cursor(s))
	s.press("up", "up")
	assert.Contains(t, cursor(s), "done", "among what is settled the cursor stays where it is put")
}

func TestAReasonStandsInFullWhereTheCursorIs(t *testing.T) {
	s := start(t, 80, 24, nil).press("b", "down", "down", "down", "down", "down", "down", "down", "m")
	s.press(typed("the sky is too bright for them by now")...)
	s.press("up")
	s.sees("skipped: the sky is too bright for them by now")
}

func TestTheSentencesOfTheStepsGetTheRoomThatStageAndStateDoNotNeed(t *testing.T) {
	s := start(t, 80, 24, nil).press("b")
	s.sees("Look at the first sub at full size: stars round", "done 21:39", "rewind again")
}
