package kit_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// The defaults are those of the project's handbook, sections 6 and 8; Moon glare and centring are our choice.
func TestStarsHaveTheirDefaults(t *testing.T) {
	k, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, kit.Stars{
		Lowest: 20 * sky.Degree, Highest: 75 * sky.Degree, FaintestMag: 2.5,
		Nearest: 30 * sky.Degree, Farthest: 150 * sky.Degree,
		MoonGlare: 10 * sky.Degree, StayFine: 20 * time.Minute, Centring: sky.Arcminute,
	}, k.Stars)
	assert.Equal(t, "aluminium", k.Optics.TubeMaterial)
	assert.InDelta(t, 300, k.Optics.TubeLengthMM, 0, "the focal length")
	assert.InDelta(t, 23e-6, k.Optics.TubeExpansionPerK, 0)
}

func TestTheTubeIsWhatTheFileSays(t *testing.T) {
	k := kit.Example()
	assert.InDelta(t, 450, k.Optics.TubeLengthMM, 0)
	for _, m := range kit.Materials() {
		k, err := kit.Read(withValue(t, "optics.tube_material", m.Name), "kit.toml")
		require.NoError(t, err)
		assert.InDelta(t, m.ExpansionPerK, k.Optics.TubeExpansionPerK, 0, m.Name)
		assert.Positive(t, m.ExpansionPerK, m.Name)
	}
}

func TestContradictionsBetweenTheStarsKeys(t *testing.T) {
	cases := []struct {
		name, key string
		value     any
		says      string
	}{
		{"no sky between lowest and highest", "stars.highest_deg", 20.0, "is not below stars.highest_deg = 20 (line"},
		{"some of it in the keyhole", "mount.ceiling_deg", 60.0, ""},
		{"all of it in the keyhole", "mount.ceiling_deg", 20.0, "stars.lowest_deg = 20 is not below mount.ceiling_deg = 20 (line"},
		{"an unknown tube", "optics.tube_material", "cheese", `give "aluminium" or "carbon fibre" or "steel"`},
		{"no room between near and far", "stars.farthest_deg", 30.0, "stars.nearest_deg = 30 (the default) is not below stars.farthest_deg = 30"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read(withValue(t, c.key, c.value), "kit.toml")
			if c.says == "" {
				require.NoError(t, err)
				return
			}
			require.ErrorContains(t, err, c.says)
		})
	}
}

func TestStarsThatTheMountKnows(t *testing.T) {
	k, err := kit.Read([]byte(least+"[stars]\nknown = [\"alpha car\", \"RIGEL\", \"alf CMa\", \"Canopus\"]\nknown_file = \"more.txt\"\n"), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"α Car": "alpha car", "β Ori": "RIGEL", "α CMa": "alf CMa"}, k.Stars.KnownNames())
	assert.Equal(t, "more.txt", k.Stars.KnownFile)
	more, err := k.WithKnown([]byte("\xef\xbb\xbfAchernar # southern\r\n\n# a heading\n  Hadar  \n"), "more.txt")
	require.NoError(t, err)
	assert.Equal(t, "Achernar", more.Stars.KnownNames()["α Eri"])
	assert.Equal(t, "Hadar", more.Stars.KnownNames()["β Cen"])
	assert.Len(t, k.Stars.Known, 4, "the kit before is left alone")
	_, err = k.WithKnown([]byte("Achernar\nCanapus\nM 42\n"), "more.txt")
	require.ErrorContains(t, err, `more.txt:2: stars.known_file names "Canapus", which is no star of the catalogue; did you mean Canopus`)
	require.ErrorContains(t, err, `more.txt:3: stars.known_file names "M 42", which is no star; leave it out`)
	_, err = kit.Read([]byte(least+"[stars]\nknown = [\"Canapus\", \"M 42\", \"Rigel\"]\n"), "kit.toml")
	require.ErrorContains(t, err, `stars.known names "Canapus"`)
	require.ErrorContains(t, err, `stars.known names "M 42"`)
}
