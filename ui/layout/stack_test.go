package layout_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/ui/layout"
)

func TestStackDropsInOrderAndNeverOverflows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		height := rapid.IntRange(0, 60).Draw(t, "height")
		names := []string{"a", "b", "c", "d", "e"}
		var parts []layout.Part
		for i, name := range names {
			rows := rapid.IntRange(1, 9).Draw(t, name)
			least := rapid.IntRange(1, rows).Draw(t, "min "+name)
			if i == 0 {
				least = 1 // as the answer's is
			}
			parts = append(parts, layout.NewPart(name, rows, least, i))
		}
		bands := layout.Stack(height, parts, "a")
		next := 0
		for i, name := range names {
			band := bands[name]
			require.Equal(t, next, band.Top, "one below the other")
			next += band.Height
			if i > 0 && band.Height > 0 {
				require.Positive(t, bands[names[i-1]].Height, "rank %d is gone before rank %d", i, i-1)
			}
		}
		require.LessOrEqual(t, next, height)
		if height > 0 {
			require.Positive(t, bands["a"].Height, "the first rank stays longest")
		}
	})
}
