package arrival_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs/arrival"
	"duskhand/plan/kit"
)

func TestFiltersHoweverTheyAreWritten(t *testing.T) {
	wanted := kit.Subs{}
	for _, name := range []string{"L", "R", "G", "B", "Ha", "OIII", "SII"} {
		wanted.Filters = append(wanted.Filters, kit.Filter{Name: name, Exposure: time.Minute})
	}
	for written, want := range map[string]string{
		"Ha 7nm": "Ha", "H-alpha 3.5 nm": "Ha", "[OIII]": "OIII", "OIII 7nm": "OIII", "Clear": "L", "Lumi": "L",
		"Red Filter": "R", "L (2)": "L", "green filter": "G", "SII (7)": "SII", "B": "B",
		"7nm": "", "filter": "", "I": "", "UV/IR": "",
	} {
		i := arrival.FilterOf(wanted, written)
		if want == "" {
			assert.Equal(t, -1, i, "%q", written)
		} else if assert.GreaterOrEqual(t, i, 0, "%q", written) {
			assert.Equal(t, want, wanted.Filters[i].Name, "%q", written)
		}
	}
	own := kit.Subs{Filters: []kit.Filter{{Name: "L"}, {Name: "R", AlsoWritten: "wheel 3, Luminance"}}}
	assert.Equal(t, 1, arrival.FilterOf(own, "WHEEL 3"))
	assert.Equal(t, 1, arrival.FilterOf(own, "luminance"), "what the kit says goes before what is usual")
	assert.Equal(t, -1, arrival.FilterOf(own, "wheel 4"))
	assert.Equal(t, 0, arrival.FilterOf(kit.Subs{Filters: []kit.Filter{{Name: "Ha 3nm"}, {Name: "Ha 7nm"}}}, "ha 3nm"),
		"the one of that name, where two are another way of writing")
	assert.Equal(t, -1, arrival.FilterOf(kit.Subs{Filters: []kit.Filter{{Name: "Ha 3nm"}, {Name: "Ha 7nm"}}}, "Ha"))
}

func TestObjectsHoweverTheyAreWritten(t *testing.T) {
	k := kit.Example()
	for written, id := range map[string]string{
		"NGC 2070": "NGC 2070", "NGC 2070 panel 1": "NGC 2070", "NGC 2070 / 30 Dor": "NGC 2070", "NGC 2070 (Tarantula)": "NGC 2070",
		"M 42, panel 2 of 4": "M 42", "M42_tile_3": "M 42",
	} {
		target, err := arrival.TargetOf(k, written)
		require.NoError(t, err, "%q", written)
		want, err := k.FindTarget(id)
		require.NoError(t, err)
		assert.Equal(t, want.Name, target.Name, "%q", written)
	}
	_, err := arrival.TargetOf(k, "panel 1")
	assert.Error(t, err)
	_, err = arrival.TargetOf(k, "nothing in the sky / nor here")
	assert.ErrorContains(t, err, "nothing in the sky / nor here")
}
