package told_test

import (
	"strings"
	"testing"
	_ "time/tzdata" // the example's zone, on computers without their own table

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/checklist"
	"duskhand/checklist/told"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func deg(value float64) *sky.Angle {
	a := sky.Angle(value) * sky.Degree
	return &a
}

func TestWhatCanBeSaid(t *testing.T) {
	k := kit.Example() // travel −16° to 16°, filters L R G B
	target := checklist.Target{Name: k.Targets[0].Name, Star: k.Targets[0].Star}
	for said, want := range map[string]checklist.Action{
		"derotator-on":               checklist.TurnOn{},
		"derotator-on -16":           checklist.TurnOn{Angle: deg(-16)},
		"derotator-on −16°":          checklist.TurnOn{Angle: deg(-16)},
		"read −15,5":                 checklist.Read{Angle: *deg(-15.5)},
		"temperature −3,5":           checklist.ReadTemperature{TempC: -3.5},
		"derotator-off":              checklist.TurnOff{},
		"rewound -16":                checklist.Rewound{To: *deg(-16)},
		"rewound -16 15.5":           checklist.Rewound{To: *deg(-16), From: deg(15.5)},
		"read 3":                     checklist.Read{Angle: *deg(3)},
		"subs-started":               checklist.StartSubs{},
		"subs-started l":             checklist.StartSubs{Filter: "L"},
		"subs-stopped":               checklist.StopSubs{},
		"target tarantula_nebula":    checklist.ChooseTarget{Target: target},
		"target NGC_2070 4":          checklist.ChooseTarget{Target: target, Angle: deg(4)},
		"guiding-calibrated":         checklist.GuidingCalibrated{},
		"guiding-on":                 checklist.GuidingOn{},
		"guiding-off":                checklist.GuidingOff{},
		"guiding-lost":               checklist.GuidingLost{},
		"guide-check yes":            checklist.GuideChecked{Yes: true},
		"guide-check no":             checklist.GuideChecked{},
		"recentred":                  checklist.Recentred{},
		"cables-straight":            checklist.CablesStraight{},
		"cloud":                      checklist.CloudCame{},
		"clear":                      checklist.SkyCleared{},
		"step-done balance":          checklist.DoStep{Step: "balance"},
		"focused Canopus":            checklist.FocusNow{Star: "Canopus"},
		"temperature -3.5":           checklist.ReadTemperature{TempC: -3.5},
		"humidity 85%":               checklist.ReadHumidity{Percent: 85},
		"note thin cloud,  no moon.": checklist.WriteNote{Text: "thin cloud, no moon."},
		"undo":                       checklist.Undo{},
		"redo":                       checklist.Redo{},
	} {
		words := strings.Fields(said)
		for i := range words {
			words[i] = strings.ReplaceAll(words[i], "_", " ") // as the shell hands a quoted name over
		}
		got, err := told.Action(k, words)
		require.NoError(t, err, said)
		assert.Equal(t, want, got, said)

		back, ok := told.Words(got)
		require.True(t, ok, said)
		again, err := told.Line(k, back)
		require.NoError(t, err, back)
		assert.Equal(t, want, again, "%s, said back", back)
	}
}

func TestWhatCannotBeSaidIsRefusedInWords(t *testing.T) {
	k := kit.Example()
	for said, want := range map[string]string{
		"":                    "nothing is said; say one of derotator-on, derotator-off,",
		"rewind -16":          `"rewind" can't be said; say one of`,
		"rewound":             "rewound says too little; write: rewound ANGLE [FROM] (the derotator has been turned to ANGLE, from the reading FROM)",
		"read":                "read says too little; write: read ANGLE (the derotator's scale shows ANGLE)",
		"undo 3":              `undo does not take "3"; write: undo`,
		"rewound half":        `"half" is no angle that the derotator can have; give -16 to 16 degrees`,
		"rewound 40":          `"40" is no angle that the derotator can have; give -16 to 16 degrees`,
		"read NaN":            "is no angle",
		"read inf":            "is no angle",
		"rewound 3 x":         `"x" is no angle`,
		"subs-started Ha":     `the kit has no filter "Ha"; it has L, R, G, B`,
		"target Zzyzx":        "Zzyzx",
		"guide-check perhaps": `"perhaps" is no answer; say yes if the correction moved the star back, or no`,
		"sighted Zzyzx":       "Zzyzx",
		"sighted M42":         "is no star",
		"sighted Rigel 41":    `"41" stands alone; give what both axes show, altitude and azimuth, or neither`,
		"sighted Rigel low 3": `"low 3" are no readouts; give degrees, altitude and azimuth, as 41.2 153.7`,
		"humidity damp":       `"damp" is no humidity; give the relative humidity in percent, as 85`,
		"temperature cold":    `"cold" is no temperature; give degrees Celsius, as -3.5`,
	} {
		_, err := told.Action(k, strings.Fields(said))
		require.ErrorContains(t, err, want, said)
	}
}

func TestTheTableOfEventsAgreesWithItself(t *testing.T) {
	for _, e := range told.Events() {
		assert.NotEmpty(t, e.Meaning, e.Name)
		_, err := told.Action(kit.Example(), []string{e.Name})
		if strings.HasPrefix(e.Args, "[") || e.Args == "" {
			assert.NoError(t, err, e.Name)
		} else {
			assert.ErrorContains(t, err, e.Usage(), e.Name)
		}
	}
}

func TestAnyWordsGiveAnActionOrAnError(t *testing.T) {
	k := kit.Example()
	var names []string
	for _, e := range told.Events() {
		names = append(names, e.Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		words := append([]string{rapid.SampledFrom(names).Draw(t, "name")}, rapid.SliceOfN(rapid.String(), 0, 3).Draw(t, "words")...)
		action, err := told.Action(k, words)
		if (action == nil) == (err == nil) && err == nil {
			t.Fatal("neither an action nor an error")
		}
	})
}

func TestAStarIsSightedByAnyNameWithOrWithoutReadouts(t *testing.T) {
	got, err := told.Action(kit.Example(), []string{"sighted", "alpha car", "41.2", "−3°"})
	require.NoError(t, err)
	sighted, ok := got.(checklist.Sighted)
	require.True(t, ok)
	assert.Equal(t, "Canopus", sighted.Name)
	assert.InDelta(t, 41.2, sighted.Readout.Altitude.Degrees(), 1e-9)
	assert.InDelta(t, -3, sighted.Readout.Azimuth.Degrees(), 1e-9)
	assert.False(t, sighted.Unread)
	assert.InDelta(t, -52.696, sighted.Star.Place.Dec.Degrees(), 0.001, "Canopus, Hipparcos")
	k := kit.Example()
	k.Stars.Known = []kit.KnownStar{{Name: "CANOPUS", ID: "α Car"}}
	got, err = told.Action(k, []string{"sighted", "Canopus"})
	require.NoError(t, err)
	assert.True(t, got.(checklist.Sighted).Unread)
	assert.Equal(t, "CANOPUS", got.(checklist.Sighted).Name, "as the list of the mount's stars has it")
	for _, said := range []string{"sighted alpha car 41.2 -3", "sighted Canopus"} {
		got, err = told.Line(kit.Example(), said)
		require.NoError(t, err)
		back, ok := told.Words(got)
		require.True(t, ok)
		again, err := told.Line(kit.Example(), back)
		require.NoError(t, err, back)
		assert.Equal(t, got, again, back)
	}
}
