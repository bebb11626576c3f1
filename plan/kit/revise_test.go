package kit_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
)

// ownKit is a kit as a person keeps it: with remarks, keys that no form asks for, and values in several notations.
const ownKit = `# my kit, second pier
[site]
name = "Hill" # since 2024
latitude = "51°30'N"
longitude = 10.25
zone = "Europe/Berlin" # not the computer's
pressure_hpa = 950

[axis]
tilt_deg = 2.0

[derotator]
min_deg = -80.0   # the cable
max_deg = 80
stops = "ends"
largest_rate_deg_per_h = 60
rewind_deg_per_s = 2

[mount]
# The lowest altitude worth using.
# floor_deg = 20

[optics]
aperture_mm = 102
focal_length_mm = 714

[camera]
pixel_um = 4.63
width_px = 4144
height_px = 2822

[[horizon]]
azimuth_deg = 90
altitude_deg = 12
name = "barn"

[[subs.filter]]
name = "Ha 3nm"
exposure_s = 300
count = 30
line = "Ha" # as sold

# dark nights only
[[subs.filter]]
name = "L"
exposure_s = 60.0
count = 200

[[target]]
name = "M 42"

[[target]]
name = "M 81"
`

func TestAKitFileIsReadAsItWouldBeTyped(t *testing.T) {
	typed, err := kit.Typed([]byte(ownKit))
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"site.name": "Hill", "site.place": "51.5 10.25", "site.zone": "Europe/Berlin",
		"derotator.min_deg": "-80", "derotator.max_deg": "80", "derotator.stops": "ends", "derotator.largest_rate_deg_per_h": "60",
		"derotator.rewind_deg_per_s": "2", "optics.aperture_mm": "102", "optics.focal_length_mm": "714", "camera.pixel_um": "4.63",
		"camera.width_px": "4144", "camera.height_px": "2822", "subs.filters": "Ha 3nm 300 × 30, L 60 × 200", "target.name": "M 42"}, typed)
	assert.Empty(t, kit.NewSketch(typed).Faults)
	besides, err := kit.Besides([]byte(ownKit))
	require.NoError(t, err)
	assert.Equal(t, []string{"site", "axis", "horizon (1)", "subs.filter", "target (1)"}, besides)
}

func TestARevisedKitKeepsWhatWasNotChanged(t *testing.T) {
	cases := []struct {
		name    string
		answers map[string]string
		old     string // the part of the file that is replaced
		now     string
	}{
		{"a number with a remark behind it", map[string]string{"derotator.min_deg": "−75,5"}, "min_deg = -80.0   # the", "min_deg = -75.5   # the"},
		{"a text with a remark behind it", map[string]string{"site.zone": "Europe/Paris"}, `"Europe/Berlin" #`, `"Europe/Paris" #`},
		{"a place in another notation", map[string]string{"site.place": "51.5 10.25"}, `latitude = "51°30'N"`, `latitude = 51.5`},
		{"a place that has a height", map[string]string{"site.place": `51.5 10.25, 300 m`}, "[site]\nname = \"Hill\" # since 2024\nlatitude = \"51°30'N\"",
			"[site]\nelevation_m = 300\nname = \"Hill\" # since 2024\nlatitude = 51.5"},
		{"a key that stood as a comment", map[string]string{"mount.floor_deg": "25"}, "# floor_deg = 20", "floor_deg = 25"},
		{"a key that stood nowhere", map[string]string{"derotator.sense": "-1"}, "[derotator]\n", "[derotator]\nsense = -1\n"},
		{"the first target", map[string]string{"target.name": "NGC 2244"}, `"M 42"`, `"NGC 2244"`},
		{"the count of one filter", map[string]string{"subs.filters": "Ha 3nm 300 × 40, L 60 × 200"}, "count = 30", "count = 40"},
		{"a filter more", map[string]string{"subs.filters": "Ha 3nm 300 × 30, L 60 × 200, B 120 × 20"}, "count = 200\n",
			"count = 200\n\n[[subs.filter]]\nname = \"B\"\nexposure_s = 120\ncount = 20\n"},
		{"a filter less", map[string]string{"subs.filters": "Ha 3nm 300 × 30"}, "[[subs.filter]]\nname = \"L\"\nexposure_s = 60.0\ncount = 200\n",
			"# [[subs.filter]]\n# name = \"L\"\n# exposure_s = 60.0\n# count = 200\n"},
		{"nothing", map[string]string{}, "", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			revised, err := kit.Revise([]byte(ownKit), "kit.toml", c.answers)
			require.NoError(t, err)
			assert.Equal(t, strings.Replace(ownKit, c.old, c.now, 1), string(revised))
		})
	}
}

func TestFiltersInAnotherOrderKeepWhatStandsInThem(t *testing.T) {
	revised, err := kit.Revise([]byte(ownKit), "kit.toml", map[string]string{"subs.filters": "L 60 × 200, OIII 300 × 10, Ha 3nm 300 × 30"})
	require.NoError(t, err)
	k, err := kit.Read(revised, "kit.toml")
	require.NoError(t, err)
	var names []string
	for _, f := range k.Subs.Filters {
		names = append(names, f.Name)
	}
	assert.Equal(t, []string{"L", "OIII", "Ha 3nm"}, names)
	assert.Contains(t, string(revised), `line = "Ha" # as sold`)
	assert.Contains(t, string(revised), "# dark nights only")
}

func TestAnEmptyAnswerTakesADefaultedKeyOutOfUse(t *testing.T) {
	with := strings.Replace(ownKit, "# floor_deg = 20", "floor_deg = 25 # trees", 1)
	revised, err := kit.Revise([]byte(with), "kit.toml", map[string]string{"mount.floor_deg": ""})
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(with, "floor_deg = 25", "# floor_deg = 25", 1), string(revised))
}

func TestARevisionThatMakesNoKitIsRefused(t *testing.T) {
	for _, c := range []struct {
		name    string
		file    string
		answers map[string]string
		says    string
	}{
		{"limits the wrong way round", ownKit, map[string]string{"derotator.min_deg": "85"}, "give the smaller limit first"},
		{"a word for a number", ownKit, map[string]string{"camera.pixel_um": "small"}, "is not a number"},
		{"a target with coordinates of its own", strings.Replace(ownKit, "name = \"M 42\"", "name = \"patch\"\nra = 83.8\ndec = -5.4", 1),
			map[string]string{"target.name": "M 81"}, "change name and place together"},
		{"filters in one line", "subs.filter = [{name = \"L\", exposure_s = 60, count = 20}]\n" + ownKit[:strings.Index(ownKit, "[[subs.filter]]")] + ownKit[strings.Index(ownKit, "[[target]]"):],
			map[string]string{"subs.filters": "R 60 × 20"}, "is written in one line"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Revise([]byte(c.file), "kit.toml", c.answers)
			assert.ErrorContains(t, err, c.says)
		})
	}
}

// Whatever filters are asked for, the file has them afterwards, and the same asked again changes nothing.
func TestAnyFiltersCanBeAskedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"L", "R", "G", "B", "Ha 3nm", "SII"}), 1, 6, rapid.ID).Draw(t, "names")
		var list []string
		for _, name := range names {
			list = append(list, name+rapid.SampledFrom([]string{" 60 × 200", " 300 × 30", " 12.5 × 7"}).Draw(t, "numbers"))
		}
		asked := strings.Join(list, ", ")
		revised, err := kit.Revise([]byte(ownKit), "kit.toml", map[string]string{"subs.filters": asked})
		require.NoError(t, err)
		typed, err := kit.Typed(revised)
		require.NoError(t, err)
		require.Equal(t, asked, typed["subs.filters"])
		again, err := kit.Revise(revised, "kit.toml", map[string]string{"subs.filters": asked})
		require.NoError(t, err)
		require.Equal(t, string(revised), string(again))
		require.Contains(t, string(revised), "# dark nights only")
		require.Contains(t, string(revised), "since 2024")
	})
}
