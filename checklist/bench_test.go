package checklist_test

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/sky"

	"github.com/stretchr/testify/require"
)

// long writes a night of 10,000 events: runs with readings, subs through filters, notes, undos.
func long(b *testing.B, j *journal.Journal) {
	n, at := checklist.Night{}, dusk
	say := func(a checklist.Action) {
		kind, body, err := checklist.Say(n, a, time.UTC)
		require.NoError(b, err)
		at = at.Add(4 * time.Second)
		e, err := j.Append("2026-12-05", kind, at, body)
		require.NoError(b, err)
		n = n.Next(e)
	}
	say(checklist.ChooseTarget{Target: tarantula})
	say(checklist.TurnOn{Angle: deg(-16)})
	for i := range 1250 {
		say(checklist.StartSubs{Filter: "L"})
		say(checklist.StartSubs{Filter: "R"})
		say(checklist.Read{Angle: sky.Angle(i%30-15) * sky.Degree})
		say(checklist.StopSubs{})
		say(checklist.WriteNote{Text: fmt.Sprint("note ", i)})
		say(checklist.Rewound{From: deg(15), To: *deg(-16)})
		say(checklist.StartSubs{Filter: "B"})
		if i%100 == 0 {
			say(checklist.Undo{})
		}
		if n.Subs != nil {
			say(checklist.StopSubs{})
		}
	}
}

// BenchmarkReplayTenThousand reads 10,000 events from the disk, proves them and folds them. The bound
// is 50 ms.
func BenchmarkReplayTenThousand(b *testing.B) {
	j, err := journal.Open(filepath.Join(b.TempDir(), "journal.db"), "bench", func() time.Time { return dusk })
	require.NoError(b, err)
	long(b, j)
	for b.Loop() {
		events, err := j.Events("2026-12-05")
		if err != nil || len(events) < 10_000 {
			b.Fatal(len(events), err)
		}
		if n := checklist.Fold(events); len(n.Runs) < 1250 {
			b.Fatal(len(n.Runs))
		}
	}
	require.NoError(b, j.Close())
}

// BenchmarkNext takes one more event into a night of 500.
func BenchmarkNext(b *testing.B) {
	j, err := journal.InMemory("bench", func() time.Time { return dusk })
	require.NoError(b, err)
	long(b, j)
	events, err := j.Events("2026-12-05")
	require.NoError(b, err)
	n := checklist.Fold(events[:500])
	for b.Loop() {
		n.Next(events[500])
	}
}

// BenchmarkStepsOfTenThousand derives the checklist's state from a night of 10,000 events.
func BenchmarkStepsOfTenThousand(b *testing.B) {
	j, err := journal.InMemory("bench", func() time.Time { return dusk })
	require.NoError(b, err)
	long(b, j)
	events, err := j.Events("2026-12-05")
	require.NoError(b, err)
	n, l := checklist.Fold(events), checklist.Steps()
	for b.Loop() {
		l.State(n)
	}
}
