package command_test

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/command"
	"duskhand/ui/facts"
)

func event(t *testing.T, ordinal int64, kind string, at time.Time, body any) journal.Event {
	t.Helper()
	raw, err := json.Marshal(body)
	require.NoError(t, err)
	return journal.Event{Ordinal: ordinal, Night: "2026-12-05", At: at, Kind: kind, Body: raw}
}

// shotTonight tells a night of two runs.
func shotTonight(t *testing.T) *shell {
	s := inTheDark(t)
	s.tell("target", "NGC 2070")
	s.tell("derotator-on", "-16")
	s.tell("subs-started")
	s.now = s.now.Add(70 * time.Minute)
	s.tell("subs-stopped")
	s.tell("rewound", "-16")
	s.tell("subs-started")
	s.now = s.now.Add(30 * time.Minute)
	s.tell("subs-stopped")
	s.tell("derotator-off")
	return s
}

func TestRecordOfTheLastNight(t *testing.T) {
	s := shotTonight(t)
	require.Equal(t, command.Done, s.run("", "record"), s.err)
	for _, want := range []string{"Night of 2026-12-05 at Saltbush Flat", "Group A", "Group B", "Rewinds", "Calibration frames", "Totals over 1 night"} {
		assert.Contains(t, s.out, want)
	}
	text := s.out
	require.Equal(t, command.Done, s.run("", "record", "--on", "2026-12-05"))
	assert.Equal(t, text, s.out)
	require.Equal(t, command.Done, s.run("", "record", "--markdown"))
	assert.Contains(t, s.out, "# Night of 2026-12-05")
	require.Equal(t, command.Done, s.run("", "record", "--csv"))
	rows, err := csv.NewReader(strings.NewReader(s.out)).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+4+4)
	s.env["LANG"] = "C"
	require.Equal(t, command.Done, s.run("", "record"))
	for _, r := range s.out {
		require.Less(t, r, rune(128), "%q", s.out)
	}
}

// The record counts what the screens count.
func TestRecordAgreesWithTheScreens(t *testing.T) {
	s := shotTonight(t)
	j, err := journal.OpenReader(s.journal())
	require.NoError(t, err)
	events, err := j.Events("2026-12-05")
	require.NoError(t, err)
	require.NoError(t, j.Close())
	k := kit.Example()
	tonight := facts.For(k, plan.DateOf(k.Site.Place, s.now), checklist.Fold(events), s.now, nil)

	require.Equal(t, command.Done, s.run("", "record", "--json"))
	var record struct {
		Nights []struct {
			Targets []struct {
				Runs []struct {
					Camera float64 `json:"camera_angle_deg"`
					Subs   []struct{ Count int }
				}
			}
		}
		Totals []struct {
			Target, Filter string
			Count          int
		}
	}
	require.NoError(t, json.Unmarshal([]byte(s.out), &record))
	runs := record.Nights[0].Targets[0].Runs
	require.Len(t, runs, len(tonight.Past()))
	for i, row := range tonight.Past() {
		total := 0
		for _, c := range runs[i].Subs {
			total += c.Count
		}
		assert.Equal(t, row.Subs, total, "run %d", i+1)
		assert.Positive(t, total)
		assert.InDelta(t, row.CameraAngle.Degrees(), runs[i].Camera, 0.051, "printed to a tenth")
	}
	for i, taken := range tonight.Taken.Taken() {
		assert.Equal(t, taken, record.Totals[i].Count, record.Totals[i].Filter)
	}
}

func TestRecordOfManyNights(t *testing.T) {
	s := shotTonight(t)
	s.now = time.Date(2026, 12, 7, 12, 0, 0, 0, time.UTC)
	s.tell("derotator-on", "0")
	s.tell("subs-started", "L")
	s.now = s.now.Add(20 * time.Minute)
	s.tell("subs-stopped")
	require.Equal(t, command.Done, s.run("", "record"))
	assert.Contains(t, s.out, "Night of 2026-12-07")
	assert.NotContains(t, s.out, "Night of 2026-12-05")
	assert.Contains(t, s.out, "Totals over 2 nights")
	require.Equal(t, command.Done, s.run("", "record", "--all"))
	assert.Less(t, strings.Index(s.out, "Night of 2026-12-05"), strings.Index(s.out, "Night of 2026-12-07"))
	assert.Equal(t, command.Failed, s.run("", "record", "--on", "2026-12-06"))
	assert.Contains(t, s.err, "the journal has nothing of the night of 2026-12-06; its nights are 2026-12-05 to 2026-12-07, 2 in all")
}

func TestRecordOfNothing(t *testing.T) {
	s := inTheDark(t)
	assert.Equal(t, command.Failed, s.run("", "record"))
	assert.Contains(t, s.err, "there is no journal yet at")
	assert.Equal(t, command.WrongUse, s.run("", "record", "--json", "--csv"))
	assert.Equal(t, command.WrongUse, s.run("", "record", "--on", "2026-12-05", "--all"))
	s.tell("note", "here")
	assert.Equal(t, command.WrongUse, s.run("", "record", "--on", "yesterday"))
	example := newShell(t)
	assert.Equal(t, command.Failed, example.run("", "record"))
	assert.Contains(t, example.err, "there is no kit file")
}
