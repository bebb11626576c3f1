package supplies_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
	"duskhand/plan/supplies"
)

func TestBytesOfASubByHand(t *testing.T) {
	// 6248 × 4176 × 2 = 52 183 296 bytes are 18 119.2 blocks, so 18 120, and two of header: 18 122 × 2880.
	d := supplies.DataOf(kit.Example().Camera, 240)
	assert.Equal(t, int64(52_191_360), d.BytesEach)
	assert.Equal(t, int64(12_525_926_400), d.Bytes)
	// 1440 × 1 pixels fill one block to the last byte.
	assert.Equal(t, int64(3*2880), supplies.DataOf(kit.Camera{Width: 1440, Height: 1}, 1).BytesEach)
	assert.Equal(t, int64(4*2880), supplies.DataOf(kit.Camera{Width: 1441, Height: 1}, 1).BytesEach)
	assert.Positive(t, supplies.DataOf(kit.Camera{Width: 50000, Height: 50000}, 100000).Bytes, "the largest that a kit allows")
}

func TestRoomByHand(t *testing.T) {
	full := supplies.DataOf(kit.Example().Camera, 240).Against(8e9)
	assert.False(t, full.Fits())
	assert.Equal(t, 153, full.SubsThatFit()) // 8e9 / 52 191 360 = 153.28
	assert.Equal(t, int64(8e9-12_525_926_400), full.LeftBytes())
}

func TestADiskThatFitsHoldsThemAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		camera := kit.Camera{Width: rapid.IntRange(16, 50000).Draw(t, "width"), Height: rapid.IntRange(16, 50000).Draw(t, "height")}
		subs := rapid.IntRange(0, 10000).Draw(t, "subs")
		d := supplies.DataOf(camera, subs)
		if d.BytesEach%2880 != 0 || d.BytesEach < 2*int64(camera.Width)*int64(camera.Height) {
			t.Fatalf("%d bytes a sub", d.BytesEach)
		}
		r := d.Against(rapid.Int64Range(0, 1e15).Draw(t, "free"))
		if r.Fits() != (r.SubsThatFit() >= subs) {
			t.Fatalf("%+v: fits %v, but holds %d", r, r.Fits(), r.SubsThatFit())
		}
	})
}
