package watch_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/watch"
)

// One walk through a season of 10,000 frames that are all older than the night: what idling costs each poll.
func BenchmarkIdleWalk10000(b *testing.B) {
	folder := b.TempDir()
	for i := range 10000 {
		path := filepath.Join(folder, fmt.Sprint(i%50), fmt.Sprintf("%05d.fits", i))
		require.NoError(b, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(b, os.WriteFile(path, []byte("frame"), 0o644))
		require.NoError(b, os.Chtimes(path, dusk, dusk))
	}
	c := newClock()
	read := func(context.Context, string, bool) (watch.Look, error) { return watch.Look{}, nil }
	reports, err := watch.Start(b.Context(), watch.Settings{Folders: []string{folder}, Read: read, Now: c.Now, After: c.After,
		Since: dusk.Add(1), PollOnly: true})
	require.NoError(b, err)
	armed := func() {
		for c.armed() == 0 {
		}
	}
	armed()
	for b.Loop() {
		c.advance(poll)
		armed()
	}
	require.Empty(b, reports)
}
