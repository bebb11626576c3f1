package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
)

func TestFiltersInOneLine(t *testing.T) {
	type want struct {
		name    string
		seconds float64
		count   int
	}
	lrgb := []want{{"L", 60, 120}, {"R", 120, 40}, {"G", 120, 40}, {"B", 120, 40}}
	cases := []struct {
		name, text string
		want       []want
	}{
		{"as the example writes it", "L 60 s × 120, R, G, B 120 × 40", lrgb},
		{"each with its numbers", "L 60 s × 120, R 120 × 40, G 120 × 40, B 120 × 40", lrgb},
		{"without blanks where they are not needed", "L 60x120,R,G,B 120x40", lrgb},
		{"semicolons and nothing between the numbers", "L 60 120; R; G; B 120 40", lrgb},
		{"a comma at the end", "L 60s*120, R,G,B 120s*40,", lrgb},
		{"one filter", "L 60 × 120", lrgb[:1]},
		{"a decimal comma", "L 0,5 s × 120,R 1,5x4", []want{{"L", 0.5, 120}, {"R", 1.5, 4}}},
		{"a name with a width in it", "Ha 3nm 300 s × 20, OIII 3nm 300 × 20", []want{{"Ha 3nm", 300, 20}, {"OIII 3nm", 300, 20}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := kit.NewSketch(map[string]string{kit.FiltersKey: c.text})
			require.Empty(t, s.Faults)
			answers := exampleAnswers()
			answers[kit.FiltersKey] = c.text
			file, err := kit.Template(answers)
			require.NoError(t, err)
			k, err := kit.Read(file, "kit.toml")
			require.NoError(t, err)
			for _, filters := range [][]kit.Filter{s.Kit.Subs.Filters, k.Subs.Filters} {
				var got []want
				for _, f := range filters {
					got = append(got, want{f.Name, f.Exposure.Seconds(), f.Count})
				}
				assert.Equal(t, c.want, got)
			}
		})
	}
}

func TestFiltersInOneLineAreRefusedWithTheFormWanted(t *testing.T) {
	for text, says := range map[string]string{
		"L":                      `"L" has neither seconds nor count; write it as L 60 s × 120`,
		"L 60 × 120, R":          `"R" has neither seconds nor count`,
		"L 60":                   `"L 60" is not a filter with seconds and count; write it as L 60 s × 120`,
		"L × 60":                 "is not a filter with seconds and count",
		", ":                     "names no filter",
		"L 60 × 120, R 0 × 40":   "filter 2: exposure_s = 0 is out of range; give 0.001 to 7200 s",
		"L 60 × 120, L 120 × 40": `filter 2: name = "L" is the same as`,
		"L 60 × 0":               "filter 1: count = 0 is out of range",
	} {
		fault, found := kit.NewSketch(map[string]string{kit.FiltersKey: text}).Fault(kit.FiltersKey)
		require.True(t, found, text)
		assert.Contains(t, fault.Problem, says, text)
		answers := exampleAnswers()
		answers[kit.FiltersKey] = text
		_, err := kit.Template(answers)
		assert.ErrorContains(t, err, says, text)
	}
}

func TestAFilterThatIsSeveralIsRefused(t *testing.T) {
	_, err := kit.Template(map[string]string{"subs.filter.name": "L,R,G,B"})
	assert.ErrorContains(t, err, "looks like several filters; give each a [[subs.filter]] of its own")
}

// What contradicts itself is refused while other answers are still missing.
func TestContradictionsAreFaultsOfAnUnfinishedKitToo(t *testing.T) {
	_, err := kit.Template(map[string]string{"derotator.min_deg": "170", "derotator.max_deg": "-170"})
	assert.ErrorContains(t, err, "give the smaller limit first")
	_, err = kit.Template(map[string]string{kit.PlaceKey: "51, -4", "site.zone": "Australia/Perth"})
	assert.ErrorContains(t, err, "has noon at 20:16 by its clock, 8 h 16 min from the Sun's time at site.longitude = -4")
}

func TestThePlaceIsAskedAsOneAnswer(t *testing.T) {
	answers := exampleAnswers()
	for _, key := range []string{"site.latitude", "site.longitude"} {
		delete(answers, key)
	}
	answers[kit.PlaceKey] = "31°57'S 141°30'E, 210 m"
	file, err := kit.Template(answers)
	require.NoError(t, err)
	k, err := kit.Read(file, "kit.toml")
	require.NoError(t, err)
	assert.InDelta(t, -31.95, k.Site.Place.Latitude.Degrees(), 1e-9)
	assert.InDelta(t, 141.5, k.Site.Place.Longitude.Degrees(), 1e-9)
	assert.InDelta(t, 210, k.Site.Place.ElevationMetres, 0)
	fault, found := kit.NewSketch(map[string]string{kit.PlaceKey: "95, 20"}).Fault(kit.PlaceKey)
	require.True(t, found)
	assert.Contains(t, fault.Problem, "beyond ±90°")
}

// Every question of a new kit that must be answered is asked, and each takes its own example.
func TestANewKitIsAskedForAllThatItNeeds(t *testing.T) {
	answers := map[string]string{}
	for _, q := range kit.AskedOfANewKit() {
		require.NotEmpty(t, q.Prompt, q.Key)
		require.NoError(t, q.Check(q.Example), q.Key)
		answers[q.Key] = q.Example
	}
	answers["target.name"] = "NGC 2070"
	file, err := kit.Template(answers)
	require.NoError(t, err)
	k, err := kit.Read(file, "kit.toml")
	require.NoError(t, err)
	assert.Len(t, k.Subs.Filters, 4)
}
