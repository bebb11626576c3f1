package journal_test

import (
	"path/filepath"
	"testing"

	"duskhand/checklist/journal"

	"github.com/stretchr/testify/require"
)

// BenchmarkAppend is one event, committed and synced.
func BenchmarkAppend(b *testing.B) {
	j, err := journal.Open(filepath.Join(b.TempDir(), "journal.db"), "bench", ticking())
	require.NoError(b, err)
	for b.Loop() {
		if _, err := j.Append(night, "noted", evening, body{Count: 1}); err != nil {
			b.Fatal(err)
		}
	}
	require.NoError(b, j.Close())
}

// filled makes a closed journal of so many events.
func filled(b *testing.B, count int) (path string) {
	path = filepath.Join(b.TempDir(), "journal.db")
	j, err := journal.Open(path, "bench", ticking())
	require.NoError(b, err)
	for i := range count {
		_, err := j.Append(night, "noted", evening, body{Count: i})
		require.NoError(b, err)
	}
	require.NoError(b, j.Close())
	return path
}

func benchmarkOpen(b *testing.B, count int) {
	path := filled(b, count)
	for b.Loop() {
		j, err := journal.Open(path, "bench", ticking())
		if err != nil {
			b.Fatal(err)
		}
		if err := j.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOpenOneNight opens, checks and closes a journal of 500 events.
func BenchmarkOpenOneNight(b *testing.B) { benchmarkOpen(b, 500) }

// BenchmarkOpenTenThousand opens, checks and closes a journal of 10,000 events.
func BenchmarkOpenTenThousand(b *testing.B) { benchmarkOpen(b, 10_000) }

// BenchmarkReadTenThousand reads and proves 10,000 events.
func BenchmarkReadTenThousand(b *testing.B) {
	j, err := journal.Open(filled(b, 10_000), "bench", ticking())
	require.NoError(b, err)
	for b.Loop() {
		events, err := j.Events(night)
		if err != nil || len(events) != 10_000 {
			b.Fatal(len(events), err)
		}
	}
	require.NoError(b, j.Close())
}
