package command_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/ui/command"
)

func TestScriptsSayWhatHappensToTheGuiding(t *testing.T) {
	s := inTheDark(t)
	s.tell("rewound", "-16")
	s.tell("guiding-calibrated")
	s.tell("guiding-on")
	assert.Equal(t, command.Failed, s.run("", "tell", "guiding-on"))
	assert.Contains(t, s.err, "guiding is on already since 22:13")
	s.tell("guide-check", "yes")
	s.tell("cables-straight")
	s.tell("cloud")
	assert.Equal(t, "cloud, 22:16:00\n", s.out)
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindRewound, checklist.KindGuidingCalibrated, checklist.KindGuidingOn,
		checklist.KindGuideCheck, checklist.KindCablesStraight, checklist.KindCloud}, s.kinds())
	require.Equal(t, command.Done, s.run("", "record"), s.err)
	assert.Contains(t, s.out, "guiding calibrated, the derotator at −16.0°")
}

func TestAStepIsToldByItsIDAndJudgedByTheList(t *testing.T) {
	s := inTheDark(t)
	s.tell("step-done", "balance")
	assert.Equal(t, command.Failed, s.run("", "tell", "step-done", "blance"))
	assert.Contains(t, s.err, `there is no step "blance"; did you mean "balance"?`)
	assert.Equal(t, command.Failed, s.run("", "tell", "step-done", "power-on"), "its guard wants the cables first")
	assert.Contains(t, s.err, "slack")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindStepDone}, s.kinds())
}

func TestTwoSightsToldMeasureTheAxis(t *testing.T) {
	s := inTheDark(t)
	s.tell("sighted", "Canopus")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindSighted}, s.kinds(), "without readouts nothing is learned")
	s.tell("sighted", "Canopus", "39.8", "134.5") // as an upright mount reads it at 22:12: duskhand card
	s.tell("sighted", "Achernar", "64.4", "188.6")
	assert.Equal(t, []string{checklist.KindNightOpened, checklist.KindSighted, checklist.KindSighted, checklist.KindSighted,
		checklist.KindAxisMeasured}, s.kinds())
}

func TestTheMountsStarsComeFromAFileBesideTheKit(t *testing.T) {
	s := newShell(t)
	path := s.ownKit("[stars]", "[stars]\nknown_file = \"mine.txt\"")
	assert.Equal(t, command.Failed, s.run("", "stars"))
	assert.Contains(t, s.err, `stars.known_file = "mine.txt" can't be read`)
	list := filepath.Join(filepath.Dir(path), "mine.txt")
	require.NoError(t, os.WriteFile(list, []byte("CANOPUS\nachernar\nFomalhaut\n"), 0o600))
	require.Equal(t, command.Done, s.run("", "stars", "--on", "2026-12-05"), s.err)
	assert.Contains(t, s.out, "Two stars: CANOPUS, then achernar")
	require.NoError(t, os.WriteFile(list, []byte("CANOPUS\nachenar\n"), 0o600))
	assert.Equal(t, command.Failed, s.run("", "stars"))
	assert.Contains(t, s.err, "mine.txt:2: stars.known_file names \"achenar\"")
}
