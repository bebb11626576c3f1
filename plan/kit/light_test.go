package kit_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
)

func TestAKitSilentAboutLightAndPowerHasNone(t *testing.T) {
	k, err := kit.Read([]byte(least), "kit.toml")
	require.NoError(t, err)
	assert.Zero(t, k.Site.SkyMagPerArcsec2)
	assert.Zero(t, k.Site.ExtinctionMagPerAirmass)
	assert.Zero(t, k.Site.SeeingArcsec)
	assert.Zero(t, k.Optics.Transmission)
	assert.Zero(t, k.Camera.QuantumEfficiency)
	assert.Zero(t, k.Camera.ReadNoiseE)
	assert.Zero(t, k.Camera.FullWellE)
	assert.Nil(t, k.Camera.SetPointC, "0 °C is a set point, not the lack of one")
	assert.Zero(t, k.Subs.Filters[0].BandwidthNM)
	assert.InDelta(t, 0.05, k.Subs.ReadNoiseShare, 0)
	assert.Equal(t, kit.Watch{Poll: 5 * time.Second}, k.Watch)
	assert.Equal(t, kit.Power{}, k.Power)
}

func TestFreezingPointIsASetPoint(t *testing.T) {
	k, err := kit.Read([]byte(strings.Replace(least, "[camera]\n", "[camera]\nset_point_c = 0\n", 1)), "kit.toml")
	require.NoError(t, err)
	require.NotNil(t, k.Camera.SetPointC)
	assert.Zero(t, *k.Camera.SetPointC)
}

func TestFoldersAndLoadsAreRead(t *testing.T) {
	k, err := kit.Read([]byte(least+`
[watch]
folders = ["/subs/a", "b c"]
poll_s = 2.5
[power]
battery_wh = 600
usable_share = 0.8
[[power.load]]
name = "mount"
watts = 9.5
[[power.load]]
name = "heaters"
watts = 0
hours = 2.5
`), "kit.toml")
	require.NoError(t, err)
	assert.Equal(t, kit.Watch{Folders: []string{"/subs/a", "b c"}, Poll: 2500 * time.Millisecond}, k.Watch)
	assert.Equal(t, kit.Power{BatteryWh: 600, UsableShare: 0.8, Loads: []kit.Load{
		{Name: "mount", Watts: 9.5}, {Name: "heaters", Lasts: 150 * time.Minute}}}, k.Power)
}

func TestTheExampleWatchesNothingAndKnowsItsLight(t *testing.T) {
	k := kit.Example()
	assert.Empty(t, k.Watch.Folders)
	assert.Len(t, k.Power.Loads, 4)
	assert.Equal(t, 5*time.Hour, k.Power.Loads[3].Lasts)
	assert.InDelta(t, 21.6, k.Site.SkyMagPerArcsec2, 0)
	for _, f := range k.Subs.Filters {
		assert.Positive(t, f.BandwidthNM, f.Name)
	}
}

func TestFaultsOfLightAndPower(t *testing.T) {
	cases := []struct{ name, document, says string }{
		{"a second mirror as wide as the first", strings.Replace(least, "[optics]\n", "[optics]\nobstruction_mm = 60\n", 1),
			"kit.toml:14: optics.obstruction_mm = 60 leaves nothing of optics.aperture_mm = 60 (line 15); give the smaller diameter here"},
		{"a share in per cent", strings.Replace(least, "[optics]\n", "[optics]\ntransmission = 85\n", 1),
			"optics.transmission = 85 is out of range; give 0.01 to 1"},
		{"one load as a table", least + "[power.load]\nname = \"mount\"\nwatts = 9\n", "write it as [[power.load]]"},
		{"a load without watts", least + "[[power.load]]\nname = \"mount\"\n", "power.load[1].watts is missing"},
		{"a folder that is no list", least + "[watch]\nfolders = \"/subs\"\n", `watch.folders = "/subs" is not right`},
		{"a load outside its list", least + "[[load]]\nname = \"mount\"\nwatts = 9\n", "did you mean [[power.load]]?"},
		{"a bandwidth in ångström", strings.Replace(least, "count = 200", "count = 200\nbandwidth_nm = 3000", 1), "give 0.1 to 1000 nm"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := kit.Read([]byte(c.document), "kit.toml")
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

func TestAnObstructionWithinTheApertureIsRight(t *testing.T) {
	k, err := kit.Read([]byte(strings.Replace(least, "[optics]\n", "[optics]\nobstruction_mm = 20\n", 1)), "kit.toml")
	require.NoError(t, err)
	assert.InDelta(t, 20, k.Optics.ObstructionMM, 0)
}
