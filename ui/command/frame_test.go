package command_test

import (
	"encoding/json"
	"encoding/xml"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

func TestFrameOfTheExampleNight(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "frame"), s.err)
	golden(t, "frame.txt", s.out)
	require.Equal(t, command.Done, s.run("", "frame", "--target", "Large Magellanic Cloud", "--grid", "2x3", "--overlap", "20", "--angle", "0"), s.err)
	golden(t, "frame-mosaic.txt", s.out)
	require.Equal(t, command.Done, s.run("", "frame", "--angle", "90", "--json"), s.err)
	golden(t, "frame.json", s.out)
	assert.NotContains(t, s.out, "NaN")
}

// By hand: 206.265·3.76/480 ″ a pixel; 6248 × 4176 of them, 23.49 × 15.70 mm at 480 mm in the tangent plane.
func TestFrameScaleAndField(t *testing.T) {
	var got struct {
		Width  float64 `json:"width_deg"`
		Height float64 `json:"height_deg"`
		Scale  float64 `json:"scale_arcsec"`
	}
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "frame", "--json"), s.err)
	require.NoError(t, json.Unmarshal([]byte(s.out), &got))
	assert.InDelta(t, 1.6157, got.Scale, 0.00005)
	assert.InDelta(t, 2.8042, got.Width, 0.00005)  // 6248 · 1.61574″
	assert.InDelta(t, 1.8743, got.Height, 0.00005) // 4176 · 1.61574″
}

func TestFrameFaults(t *testing.T) {
	for _, test := range []struct {
		name string
		args []string
		want string
	}{
		{"no grid", []string{"--grid", "two"}, "--grid = \"two\" is no grid; give rows and columns as 2x3"},
		{"too large a grid", []string{"--grid", "20x2"}, "give rows and columns from 1 to 12"},
		{"no overlap", []string{"--grid", "2x2", "--overlap", "95"}, "give per cent of a field from 0 to 90"},
		{"no angle", []string{"--angle", "north"}, "--angle: "},
		{"too large an angle", []string{"--angle", "400"}, "--angle = 400 is no position angle; give one from 0 to below 360"},
		{"no target", []string{"--target", "NGC 99999"}, "--target: "},
	} {
		t.Run(test.name, func(t *testing.T) {
			s := newShell(t)
			require.Equal(t, command.WrongUse, s.run("", append([]string{"frame"}, test.args...)...))
			assert.Contains(t, s.err, test.want)
			assert.Empty(t, s.out)
		})
	}
}

func TestPlanAsAPicture(t *testing.T) {
	s := newShell(t)
	path := filepath.Join(t.TempDir(), "night.svg")
	require.Equal(t, command.Done, s.run("", "plan", "--svg", path), s.err)
	assert.Contains(t, s.err, "Written: "+path)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, xml.Unmarshal(data, new(struct{ XMLName xml.Name })))
	require.Equal(t, command.Failed, s.run("", "plan", "--svg", path))
	assert.Contains(t, s.err, "is there already and was left alone")
	require.Equal(t, command.Done, s.run("", "plan", "--svg", path, "--force", "--paper"), s.err)
	paper, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.NotEqual(t, string(data), string(paper))
	require.Equal(t, command.Done, s.run("", "plan", "--svg", "-"), s.err)
	assert.Equal(t, string(data), s.out)
	require.Equal(t, command.WrongUse, s.run("", "plan", "--paper"))
	require.Equal(t, command.WrongUse, s.run("", "plan", "--svg", ""))
	require.Equal(t, command.WrongUse, s.run("", "plan", "--svg", filepath.Join(s.home, "x.png")))
	assert.Contains(t, s.err, "give a name that ends in .svg")
	assert.NoFileExists(t, filepath.Join(s.home, "x.png"))
}
