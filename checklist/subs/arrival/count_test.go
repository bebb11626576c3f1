package arrival_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan"
	"duskhand/plan/kit"
)

func TestCounts(t *testing.T) {
	const minute, two = time.Minute, 2 * time.Minute
	cases := []struct {
		name   string
		frames []arrival.Frame
		want   []arrival.Count
	}{
		{"nothing", nil, []arrival.Count{}},
		{"by target, filter and exposure", []arrival.Frame{
			light(64, "L", minute), light(3, "L", minute), light(5, "R", two), light(8, "L", minute), light(10, "L", 30*time.Second)},
			[]arrival.Count{{"NGC 1365", "L", minute, 1, 0}, {"NGC 2070", "L", 30 * time.Second, 1, 0},
				{"NGC 2070", "L", minute, 2, 0}, {"NGC 2070", "R", two, 1, 0}}},
		{"another way of writing the filter", []arrival.Frame{light(3, "Luminance", minute), light(5, "lum", minute), light(7, "Red ", two)},
			[]arrival.Count{{"NGC 2070", "L", minute, 2, 0}, {"NGC 2070", "R", two, 1, 0}}},
		{"a filter that the kit does not have", []arrival.Frame{light(3, "Ha", minute)},
			[]arrival.Count{{"NGC 2070", "Ha", minute, 1, 0}}},
		{"darks and flats are no subs", []arrival.Frame{light(3, "L", minute), light(5, "L", minute, kindOf(subs.Dark)), light(7, "L", minute, kindOf(subs.Flat))},
			[]arrival.Count{{"NGC 2070", "L", minute, 1, 0}}},
		{"one that does not say its kind is", []arrival.Frame{light(3, "L", minute, kindOf(subs.UnknownKind))},
			[]arrival.Count{{"NGC 2070", "L", minute, 1, 0}}},
		{"outside all runs the header's object decides", []arrival.Frame{light(-30, "L", minute, object("ngc2070")), light(-28, "L", minute, object("M 42")), light(60.5, "L", minute)},
			[]arrival.Count{{"", "L", minute, 1, 1}, {"NGC 2070", "L", minute, 1, 1}, {"Orion Nebula", "L", minute, 1, 1}}},
		{"a copy counts once", []arrival.Frame{light(3, "L", minute), light(3, "L", minute, path("/subs/copy/b.fits"))},
			[]arrival.Count{{"NGC 2070", "L", minute, 1, 0}}},
		{"a file that was written again counts once", []arrival.Frame{light(3, "L", minute), light(3, "L", minute, func(f *arrival.Frame) {
			f.Size, f.Changed, f.Seen = 53e6, f.Changed.Add(minute), f.Seen.Add(minute)
		})}, []arrival.Count{{"NGC 2070", "L", minute, 1, 0}}},
		{"a renamed file counts once", []arrival.Frame{light(3, "L", minute), light(3, "L", minute, func(f *arrival.Frame) {
			f.Was, f.Path = f.Path, "/subs/a_good.fits"
		})}, []arrival.Count{{"NGC 2070", "L", minute, 1, 0}}},
		{"one name for all before they are renamed", []arrival.Frame{
			light(3, "L", minute, path("/subs/new.fits")),
			light(3, "L", minute, path("/subs/1.fits"), func(f *arrival.Frame) { f.Was = "/subs/new.fits" }),
			light(5, "L", minute, path("/subs/new.fits"))},
			[]arrival.Count{{"NGC 2070", "L", minute, 2, 0}}},
		{"raw files by their time", []arrival.Frame{light(3, "", minute, raw, path("/subs/a.cr3")), light(59.5, "", minute, raw, path("/subs/b.cr3"))},
			[]arrival.Count{{"NGC 2070", "", 0, 1, 0}, {"", "", 0, 1, 1}}}, // the second was written after the run
		{"days without a time of day are no starts", []arrival.Frame{light(3, "L", minute, dayOnly), light(5, "L", minute, dayOnly)},
			[]arrival.Count{{"NGC 2070", "L", minute, 2, 0}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.ElementsMatch(t, c.want, arrival.Keep(c.frames, situation()).Counts())
		})
	}
}

func dayOnly(f *arrival.Frame) {
	day := f.Header.Start.Truncate(24 * time.Hour)
	f.Header.Start = &day
}

func TestAFilterThatNobodyWritesIsTheOneThatWasNamed(t *testing.T) {
	s := situation()
	s.Night.Subs.Filter = "B"
	l := arrival.Keep([]arrival.Frame{light(64, "", 2*time.Minute)}, s)
	assert.Equal(t, []arrival.Count{{"NGC 1365", "B", 2 * time.Minute, 1, 0}}, l.Counts())
	assert.Empty(t, l.Notices())
}

func TestAColourCameraNeedsNoFilter(t *testing.T) {
	s := situation()
	s.Kit.Subs.Filters = []kit.Filter{{Name: "colour", Exposure: time.Minute, Count: 9}}
	l := arrival.Keep([]arrival.Frame{light(64, "", time.Minute), light(66, "", time.Minute, raw, path("/subs/a.cr3"))}, s)
	assert.Equal(t, []arrival.Count{{"NGC 1365", "colour", time.Minute, 2, 0}}, l.Counts())
	// Written 63 s after its start, and a minute before that it began.
	assert.Equal(t, at(66).Add(3*time.Second), l.Entries[1].Start)
	assert.False(t, l.Entries[1].Sure)
}

func TestSubsOfARun(t *testing.T) {
	l := arrival.Keep([]arrival.Frame{light(8, "R", 110*time.Second), light(3, "L", time.Minute), light(5, "OIII", time.Minute), light(64, "L", time.Minute)}, situation())
	arrived, unknown := l.InRun(0)
	filters := situation().Kit.Subs.Filters
	assert.Equal(t, []plan.Sub{
		{Filter: filters[0], Exposure: plan.Span{From: at(3), To: at(4)}, Over: at(4).Add(4 * time.Second)},
		{Filter: filters[1], Exposure: plan.Span{From: at(8), To: at(8).Add(110 * time.Second)}, Over: at(8).Add(114 * time.Second)},
	}, arrived)
	assert.Equal(t, 1, unknown)
	arrived, _ = l.InRun(1)
	assert.Len(t, arrived, 1)
}

func TestFilterOf(t *testing.T) {
	wanted := kit.Subs{Filters: []kit.Filter{{Name: "L"}, {Name: "H-alpha"}, {Name: "Ha"}, {Name: "O3"}, {Name: "B"}}}
	for name, want := range map[string]int{
		"l": 0, "Lum": 0, "H_Alpha": 1, "ha": 2, "OIII": 3, "blue": 4, "Hβ": -1, "": -1, " ": -1, "clear": 0, "infrared": -1,
		"Hα": -1, // two of the kit's could be meant
	} {
		assert.Equal(t, want, arrival.FilterOf(wanted, name), name)
	}
}

func TestKinds(t *testing.T) {
	l := arrival.Keep([]arrival.Frame{light(3, "L", time.Minute), light(5, "", time.Minute, kindOf(subs.Dark)), light(5, "", time.Minute, kindOf(subs.Dark), path("/subs/again.fits"))}, situation())
	assert.Equal(t, map[subs.Kind]int{subs.Light: 1, subs.Dark: 1}, l.Kinds())
}

// In whatever order frames come, and however often they are told, the ledger is the same.
func TestOrderOfArrivalChangesNothing(t *testing.T) {
	one := rapid.Custom(func(r *rapid.T) arrival.Frame {
		f := light(float64(rapid.IntRange(-5, 70).Draw(r, "minute")), rapid.SampledFrom([]string{"L", "R", "Ha", ""}).Draw(r, "filter"),
			time.Duration(rapid.IntRange(1, 3).Draw(r, "exposure"))*time.Minute)
		f.Path = rapid.SampledFrom([]string{"a", "b", "c", "d", "e", "f"}).Draw(r, "path")
		f.Was = rapid.SampledFrom([]string{"", "", "", "a", "b"}).Draw(r, "was")
		f.Already = rapid.Bool().Draw(r, "already")
		f.Seen = f.Seen.Add(time.Duration(rapid.IntRange(-100, 100).Draw(r, "offset")) * time.Second)
		f.Header.Kind = rapid.SampledFrom([]subs.Kind{subs.Light, subs.Dark, subs.UnknownKind}).Draw(r, "kind")
		if rapid.IntRange(0, 4).Draw(r, "raw") == 0 {
			raw(&f)
		}
		return f
	})
	rapid.Check(t, func(r *rapid.T) {
		// Two states of a path are seen one after the other; the watch sees none twice.
		frames := rapid.SliceOfNDistinct(one, 0, 12, func(f arrival.Frame) string { return f.Path + f.Seen.String() }).Draw(r, "frames")
		shuffled := rapid.Permutation(frames).Draw(r, "in another order")
		shuffled = append(shuffled, frames[:len(frames)/2]...)
		l, other := arrival.Keep(frames, situation()), arrival.Keep(shuffled, situation())
		require.Equal(r, l.Counts(), other.Counts())
		require.Equal(r, l.Notices(), other.Notices())
		require.Equal(r, l.Entries, other.Entries)
		total := 0
		for _, c := range l.Counts() {
			total += c.Subs
		}
		inRuns := 0
		for run := range situation().Night.Runs {
			arrived, unknown := l.InRun(run)
			inRuns += len(arrived) + unknown
		}
		for _, c := range l.Counts() {
			inRuns += c.Outside
		}
		require.Equal(r, total, inRuns, "each sub lies in one run or in none")
	})
}

func BenchmarkKeep1000(b *testing.B) {
	var frames []arrival.Frame
	for i := range 1000 {
		frames = append(frames, light(float64(i)/15, "L", time.Minute, object("NGC 2070")))
	}
	for b.Loop() {
		arrival.Keep(frames, situation()).Notices()
	}
}

func TestShortSubsThatATargetWantsCount(t *testing.T) {
	s := situation()
	s.Kit.Targets[1].Filters = []kit.TargetFilter{{Name: "R", Exposure: 10 * time.Second}}
	// In NGC 2070's run, where R is wanted for 120 s, and in NGC 1365's.
	l := arrival.Keep([]arrival.Frame{light(10, "R", 10*time.Second), light(65, "R", 10*time.Second)}, s)
	first, _ := l.InRun(0)
	assert.Empty(t, first, "a test frame of the one")
	second, _ := l.InRun(1)
	require.Len(t, second, 1, "a sub of the other")
	assert.Equal(t, 10*time.Second, second[0].Filter.Exposure)
}
