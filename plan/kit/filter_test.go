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

// withFilter returns the shortest kit with other lines under its filter.
func withFilter(lines string) string {
	return strings.Replace(least, "name = \"OSC\"\nexposure_s = 30.5\ncount = 200\n", "exposure_s = 30.5\ncount = 200\n"+lines, 1)
}

func TestAFilterIsWhatItsKeysOrItsNameSay(t *testing.T) {
	cases := []struct {
		name, lines string
		kind        kit.FilterKind
		line        string
		centreNM    float64
	}{
		// Lines in air: Osterbrock & Ferland's tables (memory).
		{"an old kit's Ha", `name = "Ha"`, kit.LineFilter, "Hα", 656.28},
		{"an old kit's O-III, with its width", `name = "O-III 3.5nm"`, kit.LineFilter, "[O III]", 500.68},
		{"an old kit's luminance", `name = "Lum"`, kit.Broad, "", 550},
		{"an old kit's red", `name = "R"`, kit.Broad, "", 635},
		{"an old kit's camera with a matrix", `name = "OSC"`, kit.Broad, "", 550},
		{"a line by its name", "name = \"x\"\nkind = \"line\"\nline = \"S II\"", kit.LineFilter, "[S II]", 672.4},
		{"a line by its wavelength, without a kind", "name = \"x\"\nline = 587.6", kit.LineFilter, "", 587.6},
		{"a name that says a line, and a kind that says otherwise", "name = \"Ha\"\nkind = \"broad\"", kit.Broad, "", 550},
		{"a middle of one's own", "name = \"R\"\ncentre_nm = 620", kit.Broad, "", 620},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			k, err := kit.Read([]byte(withFilter(c.lines+"\n")), "kit.toml")
			require.NoError(t, err)
			f := k.Subs.Filters[0]
			assert.Equal(t, c.kind, f.Kind)
			assert.Equal(t, c.line, f.Line)
			assert.InDelta(t, c.centreNM, f.CentreNM, 1e-9)
		})
	}
}

// Filters are named with their width, which then need not be given again; the key has the last word.
func TestAFiltersNameTellsItsWidth(t *testing.T) {
	for lines, want := range map[string]float64{
		`name = "Ha 3nm"`: 3, `name = "Ha 3 nm"`: 3, `name = "OIII 4.5 NM"`: 4.5, `name = "Ha"`: 0,
		`name = "Ha 0nm"`: 0, `name = "L2 nmx"`: 0, "name = \"Ha 3nm\"\nbandwidth_nm = 7": 7,
	} {
		k, err := kit.Read([]byte(withFilter(lines+"\n")), "kit.toml")
		require.NoError(t, err, lines)
		assert.Equal(t, want, k.Subs.Filters[0].BandwidthNM, lines)
	}
	k, err := kit.Read([]byte(withFilter("name = \"Ha 3 nm\"\n")), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, "Hα", k.Subs.Filters[0].Line)
}

func TestFaultsOfFiltersAndDarkness(t *testing.T) {
	cases := []struct{ name, document, says string }{
		{"a line of no gas", withFilter("name = \"x\"\nline = \"He\"\n"),
			`subs.filter[1].line = "He" is no line that is known here; give "Hα", "Hβ", "[O III]", "[S II]", "[N II]", or 300 to 1100 nm`},
		{"a line in ångström", withFilter("name = \"x\"\nline = 6563\n"), "subs.filter[1].line = 6563 is out of range; give"},
		{"a line filter that tells no line", withFilter("name = \"x\"\nkind = \"line\"\n"), `.kind = "line" and the name tells no line; give line = "Hα"`},
		{"broad, with a line", withFilter("name = \"x\"\nkind = \"broad\"\nline = \"Hα\"\n"), `.line = "Hα" belongs to a line filter, against subs.filter[1].kind = "broad"`},
		{"a line with a middle", withFilter("name = \"x\"\nline = \"Hα\"\ncentre_nm = 656\n"), ".centre_nm = 656 stands beside subs.filter[1].line"},
		{"a target's filter that the kit does not have", least + "[[target.filter]]\nname = \"Ha\"\n",
			`target[1].filter[1].name = "Ha" is none of the kit's filters; give OSC, or add it under [[subs.filter]]`},
		{"a target's filter in a kit without any", strings.Replace(least, "[[subs.filter]]", "[[subs.filters]]", 1) + "[[target.filter]]\nname = \"Ha\"\n",
			"subs.filter is missing"},
		{"a target's filter twice", least + "[[target.filter]]\nname = \"OSC\"\n[[target.filter]]\nname = \"OSC\"\n",
			`target[1].filter[2].name = "OSC" is the same as target[1].filter[1].name`},
		{"a target's filter as a table", least + "[target.filter]\nname = \"OSC\"\n", "target[1].filter is a table; write it as [[target.filter]]"},
		{"a target's filter without a name", least + "[[target.filter]]\ncount = 3\n", "target[1].filter[1].name is missing"},
		{"darkness in daylight", strings.Replace(least, "zone =", "dark_sun_deg = 12\nzone =", 1), "site.dark_sun_deg = 12 is out of range; give -18 to -6 degrees"},
		{"lines that need it darker", strings.Replace(least, "zone =", "dark_sun_deg = -12\ndark_sun_line_deg = -15\nzone =", 1),
			"site.dark_sun_line_deg = -15 is lower than site.dark_sun_deg = -12 (line 6)"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read([]byte(c.document), "kit.toml")
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

// twoTargets has three filters, and a second target that wants two of them.
const twoTargets = least + `
[[target]]
name = "M 42"
[[target.filter]]
name = "Ha"
[[target.filter]]
name = "OSC"
exposure_s = 5
count = 12
`

func TestATargetsOwnFiltersTakeThePlaceOfTheKits(t *testing.T) {
	text := strings.Replace(twoTargets, "[[target]]", "[[subs.filter]]\nname = \"Ha\"\nexposure_s = 300\ncount = 20\n"+
		"[[subs.filter]]\nname = \"OIII\"\nexposure_s = 300\ncount = 30\n[[target]]", 1)
	k, err := kit.Read([]byte(text), "kit.toml")
	require.NoError(t, err)
	counts := func(s kit.Subs) (counts []int) {
		for _, f := range s.Filters {
			counts = append(counts, f.Count)
		}
		return counts
	}
	assert.Equal(t, []int{200, 20, 30}, counts(k.SubsFor(k.Targets[0])), "the first has no wishes of its own")
	own := k.SubsNamed("M 42")
	assert.Equal(t, []int{12, 20, 0}, counts(own), "in the kit's order; the third filter is not wanted")
	assert.Equal(t, 5*time.Second, own.Filters[0].Exposure)
	assert.Equal(t, 300*time.Second, own.Filters[1].Exposure, "left out, so the filter's own")
	assert.Len(t, own.Wanted(), 2)
	assert.Equal(t, []int{200, 20, 30}, counts(k.Subs), "the kit itself stays as it is")
	assert.Equal(t, []int{200, 20, 30}, counts(k.SubsNamed("M 31")), "nor does any other target")
}

func TestDarknessIsFullNightUnlessTheKitSaysOtherwise(t *testing.T) {
	read := func(text string) kit.Kit {
		k, err := kit.Read([]byte(text), "kit.toml")
		require.NoError(t, err)
		return k
	}
	k := read(least)
	assert.Equal(t, -18*sky.Degree, k.Site.DarkSun)
	assert.Equal(t, -18*sky.Degree, k.Site.DarkSunLine)
	k = read(strings.Replace(withFilter("name = \"Ha\"\n"), "zone =", "dark_sun_deg = -15\ndark_sun_line_deg = -9\nzone =", 1))
	assert.Equal(t, -9*sky.Degree, k.DarkSunFor(k.Targets[0]), "through Hα alone")
	k.Subs.Filters = append(k.Subs.Filters, kit.Filter{Name: "L", Kind: kit.Broad, Count: 1})
	assert.Equal(t, -15*sky.Degree, k.DarkSunFor(k.Targets[0]), "the luminance wants it darker")
}
