package survey_test

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/plan/kit"
)

// A light of 26 million pixels from the file to its stars.
func BenchmarkReadingALargeFrame(b *testing.B) {
	for name, goroutines := range map[string]int{"one": 1, "two": 2} {
		b.Run(name, func(b *testing.B) {
			path := large(b)
			read := survey.Reading(goroutines, survey.MostPixels, "")
			b.ReportAllocs()
			for b.Loop() {
				_, err := read(context.Background(), path, false)
				require.NoError(b, err)
			}
		})
	}
}

func large(b *testing.B) string {
	k := kit.Example()
	path := filepath.Join(b.TempDir(), "large.fits")
	n := night{from: courseOf(k).Dark[0].From}
	require.NoError(b, simulate.NewField(simulate.NewScene(k, k.Targets[0], 0, 1)).Frame(n.shot(0)).Save(path))
	return path
}

// The 200th light of a night: placed, compared and judged.
func BenchmarkNextLate(b *testing.B) {
	n := &night{kit: smallKit(), survey: survey.New(smallKit())}
	n.course = courseOf(n.kit)
	n.from = n.course.Dark[0].From
	n.field = simulate.NewField(simulate.NewScene(n.kit, n.kit.Targets[0], 0, 1))
	n.run(n.from, 0)
	frames := make([]arrival.Frame, 200)
	for i := range frames {
		frames[i] = n.seen(i, nil)
	}
	for _, f := range frames[:199] {
		n.hand(f)
	}
	b.ReportAllocs()
	for b.Loop() {
		n.survey.Next(frames[199], n.log, n.course)
	}
}
