package watch_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/watch"
)

var dusk = time.Date(2026, 12, 5, 11, 30, 0, 0, time.UTC)

const (
	poll    = 10 * time.Second // the watch's own defaults
	settle  = 2 * time.Second
	instant = time.Millisecond // between two tries of what is waited for
	tries   = 20000            // of those: far longer than any computer needs
)

// clock goes only when it is told to.
type clock struct {
	mu     sync.Mutex
	now    time.Time
	timers map[chan time.Time]time.Time
}

func newClock() *clock { return &clock{now: dusk, timers: map[chan time.Time]time.Time{}} }

func (c *clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *clock) After(d time.Duration) <-chan time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	ch := make(chan time.Time, 1)
	c.timers[ch] = c.now.Add(d)
	return ch
}

func (c *clock) advance(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
	for ch, at := range c.timers {
		if !at.After(c.now) {
			delete(c.timers, ch)
			ch <- c.now
		}
	}
}

func (c *clock) armed() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return len(c.timers)
}

// bench is a watch of temporary folders, with a reader that reads nothing.
type bench struct {
	*testing.T
	clock   *clock
	reports <-chan watch.Report
	stop    context.CancelFunc

	mu     sync.Mutex
	read   []string // paths, as they were read
	faults map[string]int
}

var errHeld = errors.New("opening the frame: somebody holds it")

func (b *bench) reader(_ context.Context, path string, _ bool) (watch.Look, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.read = append(b.read, filepath.Base(path))
	if b.faults[filepath.Base(path)] > 0 {
		b.faults[filepath.Base(path)]--
		return watch.Look{}, errHeld
	}
	return watch.Look{Header: subs.Header{Filter: "L"}, Measured: &subs.Measured{Count: 7}}, nil
}

func start(t *testing.T, change func(*watch.Settings), folders ...string) *bench {
	t.Helper()
	b := &bench{T: t, clock: newClock(), faults: map[string]int{}}
	s := watch.Settings{Folders: folders, Read: b.reader, Now: b.clock.Now, After: b.clock.After, PollOnly: true}
	if change != nil {
		change(&s)
	}
	before := runtime.NumGoroutine()
	ctx, cancel := context.WithCancel(t.Context())
	reports, err := watch.Start(ctx, s)
	require.NoError(t, err)
	b.reports, b.stop = reports, cancel
	t.Cleanup(func() {
		cancel()
		for range reports { // until it is closed
		}
		b.until("nothing that was started goes on", func() bool { return runtime.NumGoroutine() <= before })
	})
	return b
}

func (b *bench) until(what string, condition func() bool) {
	b.Helper()
	for range tries {
		if condition() {
			return
		}
		<-time.After(instant)
	}
	b.Fatalf("waited in vain until %s", what)
}

// rests waits until the loop has armed its timers: the poll's, and the looks' if files are awaited.
func (b *bench) rests(timers int) {
	b.Helper()
	b.until("the watch rests", func() bool { return b.clock.armed() == timers })
}

// next returns what is said next, while time goes on.
func (b *bench) next() watch.Report {
	b.Helper()
	for range tries {
		select {
		case r, open := <-b.reports:
			require.True(b, open)
			return r
		case <-time.After(instant):
			b.clock.advance(time.Second)
		}
	}
	b.Fatal("waited in vain for a report")
	return watch.Report{}
}

// atOnce returns the trouble that is told without time going on.
func (b *bench) atOnce() (trouble watch.Trouble) {
	b.Helper()
	b.until("trouble is told", func() bool {
		select {
		case r := <-b.reports:
			require.NotNil(b, r.Trouble)
			trouble = *r.Trouble
			return true
		default:
			return false
		}
	})
	return trouble
}

func (b *bench) frame() arrival.Frame {
	b.Helper()
	r := b.next()
	require.Nil(b, r.Trouble)
	require.NotNil(b, r.Frame)
	return *r.Frame
}

func (b *bench) trouble() watch.Trouble {
	b.Helper()
	r := b.next()
	require.Nil(b, r.Frame)
	require.NotNil(b, r.Trouble)
	return *r.Trouble
}

// silent tells that nothing is said in two minutes and a half.
func (b *bench) silent() {
	b.Helper()
	for range 150 {
		select {
		case r := <-b.reports:
			b.Fatalf("said without need: frame %+v, trouble %+v", r.Frame, r.Trouble)
		case <-time.After(instant):
			b.clock.advance(time.Second)
		}
	}
}

// write makes a file of a size, changed at a second after dusk.
func write(t *testing.T, path string, size, second int) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, make([]byte, size), 0o644))
	at := dusk.Add(time.Duration(second) * time.Second)
	require.NoError(t, os.Chtimes(path, at, at))
}
