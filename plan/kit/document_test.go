package kit_test

import (
	"testing"

	"duskhand/plan/kit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestADocumentKnowsItsLines(t *testing.T) {
	doc, err := kit.ReadDocument([]byte("\ufeffdrop = [1,\n 2]\n\n[[add]]\nid = \"x\"\n[[add]]\n\n[[add.guard]]\nsay = 1\n"), "own.toml")
	require.NoError(t, err)
	assert.Len(t, doc.Values["add"], 2)
	for path, want := range map[string]string{
		"drop":                                 "own.toml:1: drop is wrong",
		kit.Item("add", 1, "id"):               "own.toml:5: add[1].id is wrong",
		kit.Item("add", 2, "missing"):          "own.toml:6: add[2].missing is wrong",
		kit.Item("add[2].guard", 1, "say"):     "own.toml:9: add[2].guard[1].say is wrong",
		kit.Item("add[2].guard", 1, ""):        "own.toml:8: add[2].guard[1] is wrong",
		kit.Item("nowhere in the file", 1, ""): "own.toml: nowhere in the file[1] is wrong",
	} {
		assert.Equal(t, want, doc.Fault(path, "is wrong").Error())
	}
}

func TestADocumentThatIsNoneIsRefusedWithItsLine(t *testing.T) {
	for data, want := range map[string]string{
		"a = 1\nb = \n":    `own.toml:2: "b =" can't be read: the value after the = is missing`,
		"a = 1\n\na = 2\n": "own.toml:3: a is given a second time (first in line 1); keep one of the two",
	} {
		_, err := kit.ReadDocument([]byte(data), "own.toml")
		assert.EqualError(t, err, want)
	}
}

func TestTheNearestWordIsTheOneThatBeginsAlike(t *testing.T) {
	assert.Equal(t, "park", kit.Nearest("parks", []string{"darks", "park"}))
	assert.Equal(t, "darks", kit.Nearest("dark", []string{"park", "darks"}))
	assert.Empty(t, kit.Nearest("telescope", []string{"darks", "park"}))
}
