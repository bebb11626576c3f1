package command

import (
	"context"
	"fmt"
	"runtime"
	"sync"
	"time"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/watch"
)

// outcome is what measuring a frame gave.
type outcome struct {
	look watch.Look
	err  error
}

// inOrder has workers read n things and hands the outcomes on in order. No more than twice as many as there are
// workers are read ahead, since what was measured has to be kept until its turn.
func inOrder(ctx context.Context, n, workers int, read func(i int) outcome, take func(i int, o outcome) error) error {
	ctx, cancel := context.WithCancel(ctx)
	results := make([]chan outcome, n)
	for i := range results {
		results[i] = make(chan outcome, 1)
	}
	room, next := make(chan struct{}, 2*workers), make(chan int)
	var pool sync.WaitGroup
	defer pool.Wait()
	defer cancel()
	pool.Go(func() {
		defer close(next)
		for i := range n {
			select {
			case room <- struct{}{}:
			case <-ctx.Done():
				return
			}
			next <- i // the workers take until this is closed
		}
	})
	for range workers {
		pool.Go(func() {
			for i := range next {
				results[i] <- read(i)
			}
		})
	}
	for i := range n {
		select {
		case o := <-results[i]:
			<-room
			if err := take(i, o); err != nil {
				return err
			}
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return nil
}

// measure measures the lights and lines them up.
func (s *surveyed) measure(ctx context.Context, workers int, bar *bar) error {
	var lights []*folderFrame
	for _, f := range s.frames {
		if f.light() {
			lights = append(lights, f)
		}
	}
	reading := survey.Reading(max(1, runtime.NumCPU()/workers), s.mostPixels(), s.mosaic())
	var lineup survey.Lineup
	err := inOrder(ctx, len(lights), workers, func(i int) outcome {
		look, err := reading(ctx, lights[i].path, false)
		return outcome{look, err}
	}, func(i int, o outcome) error {
		if ctx.Err() == nil {
			lineup = s.take(lineup, lights[i], o)
		}
		return bar.show(i+1, len(lights))
	})
	if ctx.Err() != nil {
		return fmt.Errorf("stopped before all %d lights were measured; nothing was written", len(lights))
	}
	if last, ok := lineup.Group(); ok {
		s.groups = append(s.groups, last)
	}
	return err
}

// take takes a light that was measured into the line.
func (s *surveyed) take(lineup survey.Lineup, f *folderFrame, o outcome) survey.Lineup {
	if o.err != nil {
		f.unread = o.err.Error()
		return lineup
	}
	if o.look.Measured == nil {
		f.unread = whyUnmeasured(o.look.Remarks)
		return lineup
	}
	measured := *o.look.Measured
	f.measured = &measured
	f.measured.Stars = nil // a season of them would fill the memory
	if !f.dated {
		return lineup
	}
	if lit := s.skies.lit(f.start); lit != "" {
		f.remarks = append(f.remarks, lit)
	}
	light := survey.Light{Start: f.start, Header: f.header, Stars: o.look.Measured.Stars}
	if f.header.Exposure != nil {
		light.Exposure = *f.header.Exposure
	}
	light.Course = s.skies.course(f.header, f.start)
	before, any := lineup.Group()
	next, place := lineup.Next(light)
	if place.New && any {
		s.groups = append(s.groups, before)
	}
	f.place = &place
	return next
}

// whyUnmeasured is why a light that could be read was not measured: the reader's last remark.
func whyUnmeasured(remarks []string) string { return remarks[len(remarks)-1] }

// mosaic is the order of the kit's colour chip.
func (s surveyed) mosaic() subs.Mosaic {
	if s.kit == nil {
		return ""
	}
	return subs.Mosaic(s.kit.Camera.Colour)
}

// mostPixels bounds the frames that are measured.
func (s surveyed) mostPixels() int64 {
	if s.kit == nil {
		return survey.MostPixels
	}
	return s.kit.MostPixels()
}

// scale returns a diameter in seconds of arc; ok is false without a kit.
func (s surveyed) scale(pixels float64, h subs.Header) (arcsec float64, ok bool) {
	if s.kit == nil {
		return 0, false
	}
	return survey.Diameter(pixels, h, *s.kit).Arcseconds(), true
}

// zone returns the kit's, or UTC without one.
func (s surveyed) zone() *time.Location {
	if s.kit == nil {
		return time.UTC
	}
	return s.kit.Site.Zone
}
