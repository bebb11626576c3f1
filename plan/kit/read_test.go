package kit_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the zones of the example, on computers without their own table

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference")

func TestTheExampleReadsWithoutFault(t *testing.T) {
	k := kit.Example()
	assert.True(t, k.Example)
	assert.Equal(t, "Saltbush Flat", k.Site.Name)
	assert.InDelta(t, -31.95, k.Site.Place.Latitude.Degrees(), 1e-12) // rounding of a float64
	assert.InDelta(t, 141.5, k.Site.Place.Longitude.Degrees(), 1e-12)
	assert.Equal(t, "Australia/Broken_Hill", k.Site.Zone.String())
	assert.InDelta(t, 32, k.Derotator.Travel().Degrees(), 1e-12) // −16° to 16°
	assert.True(t, k.Derotator.StopsAnywhere)
	assert.InDelta(t, 120, k.Derotator.LargestRate.DegreesPerHour(), 1e-9)
	assert.InDelta(t, 0.5, k.Derotator.RewindSpeed.DegreesPerSecond(), 1e-12)
	assert.Equal(t, time.Minute, k.Derotator.Margin)
	assert.Equal(t, kit.Filter{Name: "L", Exposure: time.Minute, Count: 120, Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300}, k.Subs.Filters[0])
	assert.Len(t, k.Subs.Filters, 4)
	require.Len(t, k.Targets, 2)
	assert.Equal(t, "NGC 2070", k.Targets[0].Object.ID)
	// NGC 2070 is at 05h38.6m, −69°06′ (Revised New General Catalogue); the catalogue promises an arcminute
	// and sources differ by a few for so wide an object.
	assert.InDelta(t, 84.66, k.Targets[0].Star.Place.RA.Degrees(), 0.2)
	assert.InDelta(t, -69.1, k.Targets[0].Star.Place.Dec.Degrees(), 0.1)
	assert.Equal(t, kit.Alarm{Bell: "bell", WarnBefore: 5 * time.Minute, Notify: true, Snooze: 10 * time.Minute, DawnBefore: 30 * time.Minute}, k.Alarm)
}

func TestOnlyTheBuiltInExampleIsMarked(t *testing.T) {
	k, err := kit.Read(kit.ExampleTOML(), "kit.toml")
	require.NoError(t, err)
	assert.False(t, k.Example)
}

func TestDefaultsHoldWhereTheFileIsSilent(t *testing.T) {
	k, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, kit.Axis{Uncertainty: 3 * sky.Degree}, k.Axis)
	assert.Equal(t, 20*sky.Degree, k.Mount.Floor)
	assert.Equal(t, 80*sky.Degree, k.Mount.Ceiling)
	assert.Equal(t, 1, k.Derotator.Sense)
	assert.Equal(t, 1, k.Subs.InARow)
	assert.Zero(t, k.Subs.DitherEvery)
	assert.Zero(t, k.Optics.GuideFocalLengthMM)
	assert.Equal(t, "bell", k.Alarm.Bell)
	assert.Zero(t, k.Horizon.At(90*sky.Degree))
}

// least is the shortest kit: only what must be given.
const least = `
[site]
name = "Upland"
latitude = "52°12'30\"N"
longitude = "4 15 W"
zone = "Europe/London"
[derotator]
min_deg = -90
max_deg = 90
stops = "ends"
largest_rate_deg_per_h = 60
rewind_deg_per_s = 1
[optics]
aperture_mm = 60
focal_length_mm = 300
[camera]
pixel_um = 4.5
width_px = 4000
height_px = 3000
[[subs.filter]]
name = "OSC"
exposure_s = 30.5
count = 200
[[target]]
name = "my patch"
ra = "05 38 42.4"
dec = "+22 01 00"
pm_ra_mas_yr = -10
pm_dec_mas_yr = 2.5
`

func TestOwnCoordinatesAndSexagesimalSites(t *testing.T) {
	k, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.InDelta(t, 52.208333333, k.Site.Place.Latitude.Degrees(), 1e-9)       // 52 + 12.5/60
	assert.InDelta(t, -4.25, k.Site.Place.Longitude.Degrees(), 1e-12)            // 4 + 15/60, west
	assert.InDelta(t, 84.676666667, k.Targets[0].Star.Place.RA.Degrees(), 1e-9)  // 15 × (5 + 38/60 + 42.4/3600)
	assert.InDelta(t, 22.016666667, k.Targets[0].Star.Place.Dec.Degrees(), 1e-9) // 22 + 1/60
	assert.InDelta(t, -0.010, k.Targets[0].Star.Motion.RA.Arcseconds(), 1e-12)   // 10 mas
	assert.InDelta(t, 0.0025, k.Targets[0].Star.Motion.Dec.Arcseconds(), 1e-12)  // 2.5 mas
	assert.Equal(t, 30500*time.Millisecond, k.Subs.Filters[0].Exposure)          // 30.5 s
	assert.Empty(t, k.Targets[0].Object.ID)
	assert.Equal(t, 1+strings.Count(least[:strings.Index(least, `name = "my patch"`)], "\n"), k.Targets[0].Line)
}

func TestCoordinatesAsNumbersAreDegrees(t *testing.T) {
	text := strings.NewReplacer(`"05 38 42.4"`, "84.5", `"+22 01 00"`, "-22").Replace(least)
	k, err := kit.Read([]byte(text), "kit.toml")
	require.NoError(t, err)
	assert.InDelta(t, 84.5, k.Targets[0].Star.Place.RA.Degrees(), 1e-12)
	assert.InDelta(t, -22, k.Targets[0].Star.Place.Dec.Degrees(), 1e-12)
}

func TestAFileWithManyFaultsTellsThemAll(t *testing.T) {
	for _, name := range []string{"faults", "contradictions", "bare"} {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join("testdata", name+".toml"))
			require.NoError(t, err)
			_, err = kit.Read(data, "kit.toml")
			var faults kit.Faults
			require.ErrorAs(t, err, &faults)
			golden := filepath.Join("testdata", name+".golden")
			if *update {
				require.NoError(t, os.WriteFile(golden, []byte(err.Error()+"\n"), 0o644))
			}
			want, readErr := os.ReadFile(golden)
			require.NoError(t, readErr)
			assert.Equal(t, string(want), err.Error()+"\n")
			for i := 1; i < len(faults); i++ {
				assert.LessOrEqual(t, faults[i-1].Line, faults[i].Line, "sorted by line")
			}
		})
	}
}

func TestAFaultIsFoundByItsType(t *testing.T) {
	_, err := kit.Read([]byte("[site]\nname = 3\n"), "kit.toml")
	var one kit.Fault
	require.ErrorAs(t, err, &one)
	assert.Equal(t, "kit.toml", one.File)
}

// withValue returns the example kit with one key changed, as TOML. Of a list, the first item's.
func withValue(t require.TestingT, key string, value any) []byte {
	var document map[string]any
	require.NoError(t, toml.Unmarshal(kit.ExampleTOML(), &document))
	inside, parts := document, strings.Split(key, ".")
	switch _, there := document[parts[0]]; { // what the example leaves out
	case !there && parts[0] == "keys":
		document[parts[0]] = map[string]any{}
	case !there:
		document[parts[0]] = []any{map[string]any{}}
	}
	for i, part := range parts[:len(parts)-1] {
		if _, there := inside[part]; !there && i > 0 {
			inside[part] = []any{map[string]any{}} // a list inside an item
		}
		switch next := inside[part].(type) {
		case map[string]any:
			inside = next
		case []any:
			inside = next[0].(map[string]any)
		}
	}
	inside[parts[len(parts)-1]] = value
	data, err := toml.Marshal(document)
	require.NoError(t, err)
	return data
}

// refused tells whether err has a fault that says that the value of key itself won't do.
func refused(err error, key string) bool {
	faults, _ := err.(kit.Faults)
	for _, f := range faults {
		plain := strings.ReplaceAll(f.Key, "[1]", "")
		for _, words := range []string{"out of range", "too long", "not right", "finite"} {
			if plain == key && strings.Contains(f.Problem, words) {
				return true
			}
		}
	}
	return false
}

func TestEveryFieldEndsWhereItsRangeEnds(t *testing.T) {
	edges := kit.Edges()
	require.Greater(t, len(edges), 60)
	for _, e := range edges {
		t.Run(e.Key, func(t *testing.T) {
			_, err := kit.Read(withValue(t, e.Key, e.Inside), "kit.toml")
			assert.False(t, refused(err, e.Key), "%v must be taken, got: %v", e.Inside, err)
			_, err = kit.Read(withValue(t, e.Key, e.Outside), "kit.toml")
			assert.True(t, refused(err, e.Key), "%v must be refused, got: %v", e.Outside, err)
		})
	}
}

func TestEveryFieldRefusesAnotherType(t *testing.T) {
	for _, key := range kit.FieldNames() {
		for name, wrong := range map[string]any{"a bool": true, "a table": map[string]any{}, "a date": toml.LocalDate{Year: 2026, Month: 1, Day: 1}} {
			t.Run(key+" as "+name, func(t *testing.T) {
				_, err := kit.Read(withValue(t, key, wrong), "kit.toml")
				var faults kit.Faults
				require.ErrorAs(t, err, &faults)
				assert.Contains(t, faults[0].Problem+faults[len(faults)-1].Problem, "; ")
				assert.Contains(t, err.Error(), key[strings.LastIndex(key, ".")+1:])
			})
		}
	}
}

func TestTheTableAgreesWithItself(t *testing.T) {
	assert.Empty(t, kit.TableFaults())
}
