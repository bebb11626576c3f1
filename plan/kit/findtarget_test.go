package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky/catalog"
)

func TestTargetsAreFoundByAnyName(t *testing.T) {
	k := kit.Example()
	for _, name := range []string{"NGC 2070", "ngc 2070", " Tarantula nebula"} {
		target, err := k.FindTarget(name)
		require.NoError(t, err, name)
		assert.Equal(t, k.Targets[0], target, "the kit's own")
	}
	other, err := k.FindTarget("M 42")
	require.NoError(t, err)
	assert.Equal(t, "M 42", other.Object.ID)
	assert.Equal(t, other.Object.Star, other.Star)
	_, err = k.FindTarget("Tarantulla")
	var stranger *catalog.UnknownNameError
	require.ErrorAs(t, err, &stranger)
}

func TestATargetIsCalledByItsNumberAndItsName(t *testing.T) {
	for typed, called := range map[string]string{"M 42": "M 42, Orion Nebula", "Orion Nebula": "M 42, Orion Nebula", "NGC 2070": "NGC 2070, Tarantula Nebula",
		"M 41": "M 41", "Fornax Dwarf": "Fornax Dwarf Galaxy"} {
		object, err := catalog.Find(typed)
		require.NoError(t, err, typed)
		assert.Equal(t, called, kit.Target{Name: typed, Object: object}.Called())
	}
	assert.Equal(t, "my patch", kit.Target{Name: "my patch"}.Called())
}
