package turning_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// The bound: 20 ms for 500 stars in each light of a whole chip.
func BenchmarkMatch500(b *testing.B) {
	k := kit.Example()
	scene := simulate.NewScene(k, k.Targets[0], 0, 1)
	scene.LeastStars, scene.HotPixels = 1600, 0
	field := simulate.NewField(scene)
	second := shot(1)
	second.Turned, second.Moved = turnedBy(3*sky.Degree), framing.Pixel{X: 40, Y: -25}
	first, moved := field.Seen(shot(0)), field.Seen(second)
	require.Greater(b, len(first), 500)
	b.ResetTimer()
	for range b.N {
		_, err := turning.Match(first[:500], moved[:500])
		require.NoError(b, err)
	}
}
