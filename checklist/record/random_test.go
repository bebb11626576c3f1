package record_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/record"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// anyNight tells a night in which anything that makes sense is said in any order, and some things that a
// newer version wrote.
func anyNight(t *rapid.T, k kit.Kit) record.Events {
	var events []journal.Event
	var log checklist.Night
	at := dusk
	angle := func() *sky.Angle {
		if rapid.Bool().Draw(t, "unknown") {
			return nil
		}
		return deg(rapid.Float64Range(-16, 16).Draw(t, "angle"))
	}
	actions := []func() checklist.Action{
		func() checklist.Action { return checklist.TurnOn{Angle: angle()} },
		func() checklist.Action { return checklist.TurnOff{} },
		func() checklist.Action {
			return checklist.Rewound{From: angle(), To: *deg(rapid.Float64Range(-16, 16).Draw(t, "to"))}
		},
		func() checklist.Action {
			return checklist.Read{Angle: *deg(rapid.Float64Range(-16, 16).Draw(t, "read"))}
		},
		func() checklist.Action {
			return checklist.StartSubs{Filter: rapid.SampledFrom([]string{"", "L", "R", "Ha"}).Draw(t, "filter")}
		},
		func() checklist.Action { return checklist.StopSubs{} },
		func() checklist.Action { return target(k, rapid.IntRange(0, 1).Draw(t, "target")) },
		func() checklist.Action { return checklist.WriteNote{Text: rapid.String().Draw(t, "note")} },
		func() checklist.Action {
			return checklist.NoticeJump{From: at, To: at.Add(time.Duration(rapid.IntRange(-300, 300).Draw(t, "jump")) * time.Minute)}
		},
		func() checklist.Action { return checklist.Undo{} },
		func() checklist.Action { return checklist.Redo{} },
	}
	for range rapid.IntRange(0, 40).Draw(t, "events") {
		at = at.Add(time.Duration(rapid.IntRange(0, 40).Draw(t, "minutes")) * time.Minute)
		kind, body, err := checklist.Say(log, rapid.SampledFrom(actions).Draw(t, "action")(), time.UTC)
		if err != nil {
			kind, body = rapid.SampledFrom([]string{"newer", checklist.KindStepDone, checklist.KindRewound}).Draw(t, "kind"), "no body of that kind"
		}
		raw, err := json.Marshal(body)
		require.NoError(t, err)
		e := journal.Event{Ordinal: int64(len(events) + 1), Night: "2026-12-05", At: at, Kind: kind, Body: raw}
		events, log = append(events, e), log.Next(e)
	}
	return record.Events{Date: fifth, Events: events}
}

func TestAnyNightHasARecord(t *testing.T) {
	k := kit.Example()
	rapid.Check(t, func(t *rapid.T) {
		r := of(k, anyNight(t, k))
		counted := map[[2]string]int{}
		for _, target := range r.Nights[0].Targets {
			require.True(t, target.Common.Share >= 0 && target.Common.Share <= 1+1e-9, "%v", target.Common.Share)
			for _, run := range target.Runs {
				require.False(t, run.To.Before(run.From))
				for _, f := range run.Filters {
					counted[[2]string{target.Name, f.Filter}] += f.Count
					require.False(t, f.First.Before(run.From), "a sub before its run")
					require.False(t, f.Last.After(run.To), "a sub after its run")
				}
			}
		}
		for _, total := range r.Totals {
			require.Equal(t, counted[[2]string{total.Target, total.Filter}], total.Count, "%s %s", total.Target, total.Filter)
		}
		for _, stray := range r.Nights[0].Strays {
			require.False(t, stray.To.Before(stray.From))
		}
		var text, markdown, document, table bytes.Buffer
		require.NoError(t, r.Text(&text))
		require.NoError(t, r.Markdown(&markdown))
		require.NoError(t, r.JSON(&document))
		require.True(t, json.Valid(document.Bytes()))
		require.NoError(t, r.CSV(&table))
		_, err := csv.NewReader(&table).ReadAll()
		require.NoError(t, err)
	})
}

func BenchmarkRecordOfANight(b *testing.B) {
	k := kit.Example()
	night := evening(b, k).night()
	for b.Loop() {
		of(k, night)
	}
}
