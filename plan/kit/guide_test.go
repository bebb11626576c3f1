package kit_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
)

const guided = `
[guide]
pixel_um = 3.75
width_px = 1280
height_px = 960
right_deg = 0.3
up_deg = -0.2
turned_deg = 90
`

// withGuideScope gives the shortest kit a guide telescope and what follows it.
func withGuideScope(more string) string {
	scope := "focal_length_mm = 300\nguide_aperture_mm = 50\nguide_focal_length_mm = 200\n"
	return strings.Replace(least, "focal_length_mm = 300\n", scope, 1) + more
}

func TestGuideCameraIsRead(t *testing.T) {
	k, err := kit.Read([]byte(withGuideScope(guided)), "kit.toml")
	require.NoError(t, err)
	assert.True(t, k.Guide.Has())
	assert.Equal(t, kit.Guide{PixelUM: 3.75, Width: 1280, Height: 960, Exposure: 2 * time.Second, Turned: 90 * sky.Degree,
		Gain: 0.5, Offset: &kit.ChipOffset{Right: 0.3 * sky.Degree, Up: -0.2 * sky.Degree}}, k.Guide)
}

func TestAKitWithoutGuideCameraHasNone(t *testing.T) {
	k, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.False(t, k.Guide.Has())
	assert.Nil(t, k.Guide.Offset, "nobody knows where it looks")
	assert.False(t, k.Camera.Mirrored)
}

func TestGuideScopeStraightAheadIsKnownToBeSo(t *testing.T) {
	k, err := kit.Read([]byte(least+"[guide]\nright_deg = 0\nup_deg = 0\n"), "kit.toml")
	require.NoError(t, err)
	require.NotNil(t, k.Guide.Offset, "0 is a measured offset, not an unknown one")
	assert.Equal(t, kit.ChipOffset{}, *k.Guide.Offset)
}

func TestGuideKeysThatContradictEachOther(t *testing.T) {
	cases := []struct{ name, document, key, says string }{
		{"a chip without height", withGuideScope("[guide]\npixel_um = 3.75\nwidth_px = 1280\n"), "guide.pixel_um", "give guide.height_px too"},
		{"a height alone", withGuideScope("[guide]\nheight_px = 960\n"), "guide.height_px", "give guide.pixel_um too"},
		{"an offset in one axis", least + "[guide]\nup_deg = 1\n", "guide.up_deg", "give guide.right_deg too"},
		{"a camera without a telescope", least + guided, "guide.pixel_um", "needs the guide telescope; give optics.guide_focal_length_mm"},
		{"a pixel of another unit", withGuideScope(strings.Replace(guided, "width_px = 1280", "width_px = 50000", 1) + "\n# the field\n"), "", ""},
		{"too wide a field", strings.Replace(withGuideScope(strings.NewReplacer("3.75", "20", "1280", "50000").Replace(guided)), "= 200", "= 100", 1),
			"guide.pixel_um", "makes a field of 157° with optics.guide_focal_length_mm = 100"}, // 2·atan(1000/2/100)
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read([]byte(c.document), "kit.toml")
			if c.key == "" {
				require.NoError(t, err) // 2·atan(187.5/2/200) = 50°: wide, and possible
				return
			}
			var faults kit.Faults
			require.ErrorAs(t, err, &faults)
			require.Len(t, faults, 1)
			assert.Equal(t, c.key, faults[0].Key)
			assert.Contains(t, faults[0].Problem, c.says)
		})
	}
}

func TestTargetKeepsTheWantedFraming(t *testing.T) {
	k, err := kit.Read([]byte(least+"camera_angle_deg = 0\nmiddle_east_arcmin = 12\nmiddle_north_arcmin = -5\n"), "kit.toml")
	require.NoError(t, err)
	target := k.Targets[0]
	require.NotNil(t, target.CameraAngle, "north up is a wish, not the lack of one")
	assert.Zero(t, *target.CameraAngle)
	assert.InDelta(t, 12, target.Middle.East.Arcminutes(), 1e-12)
	assert.InDelta(t, -5, target.Middle.North.Arcminutes(), 1e-12)
	plain, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.Nil(t, plain.Targets[0].CameraAngle, "any angle will do")
}

func TestAMirroredPicture(t *testing.T) {
	k, err := kit.Read([]byte(strings.Replace(least, "width_px", "picture = \"mirrored\"\nwidth_px", 1)), "kit.toml")
	require.NoError(t, err)
	assert.True(t, k.Camera.Mirrored)
	_, err = kit.Read([]byte(strings.Replace(least, "width_px", "picture = \"upside down\"\nwidth_px", 1)), "kit.toml")
	assert.ErrorContains(t, err, `"true" or "mirrored"`)
}

func TestWhatTheMountDoesWithCorrections(t *testing.T) {
	k, err := kit.Read([]byte(least+"[guide]\ncorrections = \"axes\"\ngain = 0.7\n"), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, kit.AxesCorrections, k.Guide.Corrections)
	assert.InDelta(t, 0.7, k.Guide.Gain, 0)
	silent, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.Empty(t, silent.Guide.Corrections, "not known is an answer")
	assert.InDelta(t, 0.5, silent.Guide.Gain, 0)
	_, err = kit.Read([]byte(least+"[guide]\ncorrections = \"both\"\ngain = 1\n"), "kit.toml")
	require.ErrorContains(t, err, `"turned" or "axes" or "sky"`)
	require.ErrorContains(t, err, "0.05 to 0.95")
}
