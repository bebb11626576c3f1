package catalog

import "testing"

// In the package, for the cost of reading is paid once and hidden behind sync.OnceValue outside it.

func BenchmarkReadStars(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		readStars()
	}
}

func BenchmarkFindObject(b *testing.B) { benchmarkFind(b, "Tarantula Nebula") }
func BenchmarkFindStar(b *testing.B)   { benchmarkFind(b, "Sirius") }
func BenchmarkFindLetter(b *testing.B) { benchmarkFind(b, "sigma Octantis") }
func BenchmarkFindNothing(b *testing.B) {
	for b.Loop() {
		if _, err := Find("tarantla"); err == nil {
			b.Fatal("found")
		}
	}
}

func benchmarkFind(b *testing.B, name string) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Find(name); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkConfusable(b *testing.B) {
	shaula, err := Find("Shaula")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		Confusable(shaula)
	}
}

// TestReadStarsAllocatesOnlyItsArrays keeps the strings slices of the embedded file: the stars, their
// names, and a handful of growths of nothing else.
func TestReadStarsAllocatesOnlyItsArrays(t *testing.T) {
	if n := testing.AllocsPerRun(2, func() { readStars() }); n > 8 {
		t.Errorf("%v allocations, 8 at most", n)
	}
}
