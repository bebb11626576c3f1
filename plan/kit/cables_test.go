package kit_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
)

func withMount(lines string) string {
	if strings.Contains(least, "[mount]\n") {
		return strings.Replace(least, "[mount]\n", "[mount]\n"+lines, 1)
	}
	return least + "[mount]\n" + lines
}

func TestCablesOfTheMount(t *testing.T) {
	k, err := kit.Read([]byte(withMount("azimuth_straight_deg = 180\nazimuth_from_deg = -90\nazimuth_to_deg = 450\n")), "kit.toml")
	require.NoError(t, err)
	c := k.Mount.Cables
	assert.InDelta(t, 180, c.Straight.Degrees(), 1e-9)
	assert.True(t, c.Holds(-90*sky.Degree) && c.Holds(450*sky.Degree))
	assert.False(t, c.Holds(-91*sky.Degree) || c.Holds(451*sky.Degree))
	silent, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.True(t, silent.Mount.Cables.Holds(1e6*sky.Degree), "a kit that names no end has none")
	_, err = kit.Read([]byte(withMount("azimuth_straight_deg = 180\nazimuth_from_deg = 200\nazimuth_to_deg = 90\n")), "kit.toml")
	require.ErrorContains(t, err, "mount.azimuth_from_deg")
	require.ErrorContains(t, err, "mount.azimuth_to_deg")
}
