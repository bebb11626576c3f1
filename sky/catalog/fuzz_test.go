package catalog_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/sky/catalog"
)

// FuzzFind holds that whatever is typed finds an object, which its own names find again, or is refused in words.
func FuzzFind(f *testing.F) {
	for _, name := range []string{"M 42", "ngc2070", "Tarantula Nebula", "σ Oct", "alpha cma", "Sh2-155", "M 3/4", "HIP 1", "\xff", "²"} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		found, err := catalog.Find(typed)
		if err != nil {
			require.Empty(t, found.ID, typed)
			require.NotEmpty(t, err.Error(), typed)
			return
		}
		again, err := catalog.Find(found.ID)
		require.NoError(t, err, "%q has the number %q", typed, found.ID)
		require.Equal(t, found.ID, again.ID, typed)
	})
}
