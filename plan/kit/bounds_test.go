package kit_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
)

// What is no kit is refused before it costs anything: the time that these took once went with the square of their
// length, minutes and gigabytes.
func TestFilesThatAreNoKitsAreRefused(t *testing.T) {
	const depth = 32_000
	points := &strings.Builder{}
	for i := range 3601 {
		fmt.Fprintf(points, "[[horizon]]\nazimuth_deg=%g\naltitude_deg=5\n", float64(i)*0.09)
	}
	for _, c := range []struct{ name, text, want string }{
		{"a file that is too long", strings.Repeat("# comment\n", 1<<17), "is longer than 1048576 bytes"},
		{"a key of many parts", strings.TrimSuffix(strings.Repeat("a.", depth), ".") + "=1", "line 1: has something nested more than 16 deep"},
		{"a table of many parts", "[" + strings.TrimSuffix(strings.Repeat("a.", depth), ".") + "]", "nested more than 16 deep"},
		{"lists in lists", "\na=" + strings.Repeat("[", 2000) + strings.Repeat("]", 2000), "line 2: has something nested"},
		{"tables in tables", "a=" + strings.Repeat("{a=", 2000) + "1" + strings.Repeat("}", 2000), "nested more than 16 deep"},
		{"a table of too many keys", string(unknownKeys(60_000)), "line 1001: is in a table of more than 1000 keys"},
		{"too many tables", "[" + strings.ReplaceAll(strings.TrimSpace(strings.ReplaceAll(string(unknownKeys(2000)), "=1\n", " ")), " ", "]\n[") + "]", "more than 1000 keys"},
		{"a skyline of too many points", points.String(), "horizon[3601] is one point too many of 3601"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read([]byte(c.text), "")
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
			assert.Less(t, len(err.Error()), 20_000, "nobody reads a message that is as long as the file")
		})
	}
}

// Every unknown key is a fault; the nearest known one is looked for as long as there are few.
func TestManyUnknownKeysAreAllFaults(t *testing.T) {
	_, err := kit.Read(unknownKeys(900), "")
	var faults kit.Faults
	require.ErrorAs(t, err, &faults)
	assert.GreaterOrEqual(t, len(faults), 900)
}

func unknownKeys(n int) []byte {
	text := &strings.Builder{}
	for i := range n {
		fmt.Fprintf(text, "unknown%d=1\n", i)
	}
	return []byte(text.String())
}

func BenchmarkReadUnknownKeys(b *testing.B) {
	text := unknownKeys(60_000)
	for b.Loop() {
		if _, err := kit.Read(text, ""); err == nil {
			b.Fatal("taken")
		}
	}
}
