package command

import (
	"context"
	"errors"
	"io"
	"os"
	"os/signal"
	"time"

	"duskhand/ui/clock"
)

// untilLeft returns a context that ends with Ctrl-C, a request to terminate, or the end of the input, by which a
// program that started this one says that it needs no more.
func (p Program) untilLeft() (context.Context, context.CancelFunc) {
	ctx, cancel := signal.NotifyContext(context.Background(), endingSignals()...)
	if !p.endlessInput() {
		letBackground()
		go func() {
			if _, err := io.Copy(io.Discard, p.Streams.In); err == nil { // an error is no end: it is no terminal of ours
				cancel()
			}
		}()
	}
	return ctx, cancel
}

// endlessInput tells whether the input is a device that nobody sits at, as /dev/null under a service manager: its
// end means nothing.
func (p Program) endlessInput() bool {
	file, ok := p.Streams.In.(*os.File)
	if !ok {
		return p.Streams.In == nil
	}
	if p.Streams.InTerminal {
		return false
	}
	info, err := file.Stat()
	return err != nil || info.Mode()&os.ModeCharDevice != 0
}

// errEnded says that the person, or the program at the other end, needs no more.
var errEnded = errors.New("ended")

// wait waits for the next second of the night. A clock that is led by somebody is not waited for.
func wait(ctx context.Context, c clock.Clock) error {
	if ctx.Err() != nil {
		return errEnded
	}
	if !c.Ticks() {
		return nil
	}
	timer := time.NewTimer(c.UntilNextSecond())
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return errEnded
	case <-timer.C:
		return nil
	}
}
