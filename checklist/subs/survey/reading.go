package survey

import (
	"context"
	"fmt"
	"path/filepath"
	"strconv"
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
// A light of more than mostPixels is read and not measured, and its remarks say so. mosaic is the order of the chip's
// colours for raw frames whose headers do not say, "" of a chip without colours; one that is binned has none left.
//
// Memory: a frame's data and some 8 MB for each goroutine, as often as frames are read at a time.
func Reading(goroutines int, mostPixels int64, mosaic subs.Mosaic) watch.Reader {
	benches := sync.Pool{New: func() any { return &bench{measurer: measure.New(goroutines, measure.Kept)} }}
	return func(ctx context.Context, path string, already bool) (watch.Look, error) {
		if err := ctx.Err(); err != nil {
			return watch.Look{}, err
		}
		b := benches.Get().(*bench)
		defer benches.Put(b)
		return b.read(ctx, path, !already, mostPixels, mosaic)
	}
}

func (b *bench) read(ctx context.Context, path string, measured bool, mostPixels int64, mosaic subs.Mosaic) (look watch.Look, err error) {
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
	if n := int64(frame.Header.Width) * int64(frame.Header.Height); n > mostPixels {
		look.Remarks = append(look.Remarks[:len(look.Remarks):len(look.Remarks)], tooManyPixels(path, n, mostPixels))
		return look, nil
	}
	if err := frame.Fill(&b.pixels); err != nil {
		return look, err
	}
	if err := ctx.Err(); err != nil { // a share may have taken its time
		return look, err
	}
	if look.Header.Mosaic == "" && frame.Planes() == 1 && look.Header.BinX == 1 {
		look.Header.Mosaic = mosaic
	}
	result, err := b.stars(look.Header.Mosaic)
	if err != nil {
		return look, fmt.Errorf("measuring %s: %w", filepath.Base(path), err)
	}
	look.Measured = &result
	return look, nil
}

func (b *bench) stars(mosaic subs.Mosaic) (subs.Measured, error) {
	if mosaic != "" {
		return b.measurer.Coloured(&b.pixels, mosaic)
	}
	return b.measurer.Frame(&b.pixels)
}

// MostPixels is the bound where there is no kit to say it: four times the largest camera that people put at such a
// telescope.
const MostPixels = 4 * 61_000_000

func tooManyPixels(path string, pixels, most int64) string {
	return fmt.Sprintf("%s: it has %s million pixels, more than the %s million that are measured, so it is counted and its stars are not; "+
		"if it is a frame of yours, set watch.most_megapixels in the kit", filepath.Base(path), millions(pixels), millions(most))
}

func millions(n int64) string { return strconv.FormatFloat(float64(n)/1e6, 'g', 4, 64) }
