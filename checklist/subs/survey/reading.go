package survey

import (
	"context"
	"fmt"
	"path/filepath"
	"sync"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
	"duskhand/checklist/subs/measure"
	"duskhand/checklist/subs/watch"
)

// bench is what one worker measures with; its memory serves from frame to frame.
type bench struct {
	pixels   fits.Pixels
	measurer *measure.Measurer
}

// Reading returns a reader that reads and measures the lights among the frames, each on so many goroutines.
// Frames that were there when the watch began are read and not measured: a night of them would take a minute.
//
// Memory: a frame's data and some 8 MB for each goroutine, as often as frames are read at a time.
func Reading(goroutines int) watch.Reader {
	benches := sync.Pool{New: func() any { return &bench{measurer: measure.New(goroutines, measure.Kept)} }}
	return func(ctx context.Context, path string, already bool) (watch.Look, error) {
		if err := ctx.Err(); err != nil {
			return watch.Look{}, err
		}
		b := benches.Get().(*bench)
		defer benches.Put(b)
		return b.read(ctx, path, !already)
	}
}

func (b *bench) read(ctx context.Context, path string, measured bool) (look watch.Look, err error) {
	frame, err := fits.Open(path)
	if err != nil {
		return watch.Look{}, err
	}
	defer func() {
		if closed := frame.Close(); err == nil {
			err = closed
		}
	}()
	look = watch.Look{Header: frame.Header, Remarks: frame.Remarks}
	if kind := frame.Header.Kind; !measured || kind != subs.Light && kind != subs.UnknownKind {
		return look, nil
	}
	if err := frame.Fill(&b.pixels); err != nil {
		return look, err
	}
	if err := ctx.Err(); err != nil { // a share may have taken its time
		return look, err
	}
	result, err := b.measurer.Frame(&b.pixels)
	if err != nil {
		return look, fmt.Errorf("measuring %s: %w", filepath.Base(path), err)
	}
	look.Measured = &result
	return look, nil
}
