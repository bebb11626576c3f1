package ui_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan/kit"
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

func TestTheStepOfGuidingSaysWhatTheCalibrationIsWorth(t *testing.T) {
	s := start(t, 80, 24, nil).press("b")
	for range 12 {
		if s.press("up"); strings.HasPrefix(cursor(s), "Start guiding") {
			break
		}
	}
	s.sees("The calibration is ", " off, its scale ", "The next run may want another")
}

// What settles more than one step is shown as the one that it is for: started subs settle the re-centring too.
func TestTheStepThatTheOneKeySettlesIsShown(t *testing.T) {
	k := kit.Example()
	k.Example = false
	s := opensOwn(t, k, time.Date(2026, 12, 5, 11, 20, 0, 0, time.UTC))
	s.press("b")
	for range 60 {
		if strings.Contains(s.text(), "space subs started") {
			break
		}
		s.press("space")
	}
	s.sees("space subs started")
	assert.Contains(t, cursor(s), "Start the subs")
}

func TestTheSentencesOfTheStepsGetTheRoomThatStageAndStateDoNotNeed(t *testing.T) {
	s := start(t, 80, 24, nil).press("b")
	s.sees("Look at the first sub at full size: stars round", "done 21:39", "rewind again")
}

// From two metres one reads one thing: that one waits, or the stage; and what one waits for stands before what comes then.
func TestStepsSaysThatOneWaits(t *testing.T) {
	k := kit.Example()
	k.Example = false
	s := opensOwn(t, k, time.Date(2026, 12, 5, 9, 0, 0, 0, time.UTC)) // 19:30 by its clock, the Sun sets at 19:58
	s.press("b")
	for range 30 {
		if s.press("space"); strings.Contains(s.text(), "Then: ") {
			break
		}
	}
	text := s.text()
	waits, then := strings.Index(text, "Nothing to do until"), strings.Index(text, "Then: Take the caps off")
	assert.Positive(t, waits, text)
	assert.Greater(t, then, waits, text)
	assert.Contains(t, text, "█   █  ▄▀▀▀▄  ▀█▀  ▀▀█▀▀", "WAIT, large")
	s.wait(time.Hour).sees("Take the caps off", "█▀▀▀▀").seesNot("Then: ")
}
