package durable_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/durable"
)

func TestFilesAndNames(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "page")
	require.NoError(t, os.WriteFile(path, []byte("ink"), 0o400)) // read-only, as a copy that is kept may be
	require.NoError(t, durable.File(path))
	require.NoError(t, durable.Names(folder))
	require.ErrorIs(t, durable.File(path+".none"), os.ErrNotExist)
	require.ErrorIs(t, durable.Names(filepath.Join(folder, "none")), os.ErrNotExist)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "ink", string(data), "untouched")
}
