package kit_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
	"duskhand/sky"
)

func exampleAnswers() map[string]string {
	answers := map[string]string{}
	for _, q := range kit.Questions() {
		answers[q.Key] = q.Example
	}
	return answers
}

func TestQuestionsAskWhatHasNoSensibleDefault(t *testing.T) {
	var keys []string
	for _, q := range kit.Questions() {
		keys = append(keys, q.Key)
		assert.NotEmpty(t, q.Prompt, q.Key)
		assert.NotEmpty(t, q.Range, q.Key)
		assert.NoError(t, q.Check(q.Example), "the example of %s must pass", q.Key)
	}
	assert.Equal(t, []string{
		"site.name", "site.latitude", "site.longitude", "site.zone",
		"derotator.min_deg", "derotator.max_deg", "derotator.stops", "derotator.largest_rate_deg_per_h", "derotator.rewind_deg_per_s",
		"optics.aperture_mm", "optics.focal_length_mm", "camera.pixel_um", "camera.width_px", "camera.height_px",
		"subs.filter.name", "subs.filter.exposure_s", "subs.filter.count", "target.name",
	}, keys)
}

func TestAnyKeyCanBeAskedFor(t *testing.T) {
	q, found := kit.QuestionAbout("mount.floor_deg")
	require.True(t, found)
	assert.Equal(t, kit.Question{Key: "mount.floor_deg", Prompt: "The lowest altitude worth using.", Unit: "degrees", Range: "0 to 85", Example: "25", Default: "20"}, q)
	q, _ = kit.QuestionAbout("alarm.bell")
	assert.Equal(t, "bell", q.Default)
	_, found = kit.QuestionAbout("mount.flor_deg")
	assert.False(t, found)
	for _, q := range kit.Questions() {
		assert.Empty(t, q.Default, q.Key)
	}
}

func TestQuestionsCheckWhatIsTyped(t *testing.T) {
	cases := []struct{ name, key, typed, says string }{
		{"a number", "site.latitude", "-31.95", ""},
		{"an angle", "site.latitude", `31°57'S`, ""},
		{"blanks around it", "camera.width_px", " 6248 ", ""},
		{"nothing", "site.name", "", "is empty"},
		{"too far north", "site.latitude", "95", "= 95 is out of range; give -90 to 90 degrees"},
		{"a word for a number", "camera.pixel_um", "small", "is not a number; give 0.5 to 50 µm"},
		{"a fraction for a whole number", "camera.width_px", "12.5", "is not a whole number"},
		{"not a number", "camera.pixel_um", "NaN", "is not a number"},
		{"infinity", "camera.pixel_um", "inf", "is not a number"},
		{"a zone that is none", "site.zone", "Mars/Olympus", "no time zone"},
		{"an unknown choice", "derotator.stops", "middle", `give "anywhere" or "ends"`},
		{"an object that is none", "target.name", "NGC 99999", "is not in the catalogue"},
		{"a key that is none", "target.nam", "x", "did you mean target.name?"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			err := kit.Question{Key: c.key}.Check(c.typed)
			if c.says == "" {
				require.NoError(t, err)
				return
			}
			var fault kit.Fault
			require.ErrorAs(t, err, &fault)
			assert.Contains(t, fault.Error(), c.says)
		})
	}
}

func TestTemplateWithAllAnswersReadsBack(t *testing.T) {
	answers := exampleAnswers()
	answers["site.name"] = `The "Upper\Lower" field`
	answers["horizon.azimuth_deg"], answers["horizon.altitude_deg"] = "95", "22"
	answers["alarm.bell"], answers["alarm.command"] = "command", "play call.wav"
	answers["mount.floor_deg"] = "30"
	data, err := kit.Template(answers)
	require.NoError(t, err)
	k, err := kit.Read(data, "new.toml")
	require.NoError(t, err, "%s", data)
	assert.Equal(t, `The "Upper\Lower" field`, k.Site.Name)
	assert.InDelta(t, -31.95, k.Site.Place.Latitude.Degrees(), 1e-12)
	assert.Equal(t, 30*sky.Degree, k.Mount.Floor)
	assert.InDelta(t, 22, k.Horizon.At(95*sky.Degree).Degrees(), 1e-12)
	assert.Equal(t, []string{"play", "call.wav"}, k.Alarm.Command)
	assert.Equal(t, 120, k.Subs.Filters[0].Count)
	assert.Equal(t, "NGC 2070", k.Targets[0].Name)
}

func TestTemplateNamesEveryKeyAndItsUseOnce(t *testing.T) {
	data, err := kit.Template(nil)
	require.NoError(t, err)
	_, err = kit.Read(data, "new.toml")
	var faults kit.Faults
	require.ErrorAs(t, err, &faults, "what is required is still missing")
	for _, f := range faults {
		assert.Contains(t, f.Problem, "is missing")
	}
	uncommented := "\n" + strings.ReplaceAll(string(data), "# ", "")
	for _, key := range kit.FieldNames() {
		assert.Contains(t, uncommented, "\n"+key[strings.LastIndex(key, ".")+1:]+" = ", key)
	}
}

func TestTemplateWithItsCommentsTakenAwayIsAKit(t *testing.T) {
	data, err := kit.Template(exampleAnswers())
	require.NoError(t, err)
	var lines []string
	for _, line := range strings.Split(string(data), "\n") {
		set, isSet := strings.CutPrefix(line, "# ")
		ofList := strings.HasPrefix(set, "event = ") || strings.HasPrefix(set, "command = ") || strings.HasPrefix(set, "watts = ")
		if isSet && (ofList || strings.HasPrefix(set, "[[") || strings.Contains(strings.SplitN(set, " = ", 2)[0], "_") || strings.HasPrefix(set, "name = ")) &&
			!strings.Contains(strings.SplitN(set, " = ", 2)[0], " ") && !strings.HasPrefix(set, "pm_") {
			line = set
		}
		lines = append(lines, line)
	}
	k, err := kit.Read([]byte(strings.Join(lines, "\n")), "new.toml")
	require.NoError(t, err)
	assert.InDelta(t, 200, k.Optics.GuideFocalLengthMM, 0)
	assert.Equal(t, "gum trees", k.Horizon.ObstructionAt(0))
	assert.Equal(t, []kit.OnEvent{{Event: kit.RewindDue, Command: []string{"notify-send", "rewind now"}}}, k.On)
}

func TestTemplateRefusesAnswersThatWillNotDo(t *testing.T) {
	answers := exampleAnswers()
	answers["site.latitude"], answers["camera.pixel_um"], answers["site.foo"] = "95", "tiny", "x"
	_, err := kit.Template(answers)
	var faults kit.Faults
	require.ErrorAs(t, err, &faults)
	assert.Len(t, faults, 3)

	answers = exampleAnswers()
	answers["derotator.min_deg"] = "20"
	_, err = kit.Template(answers)
	require.Error(t, err)
	assert.Equal(t, "derotator.max_deg = 16 is below derotator.min_deg = 20; give the smaller limit first", err.Error())
}

func TestTemplateTakesAnUnknownTargetWithItsCoordinates(t *testing.T) {
	answers := exampleAnswers()
	answers["target.name"], answers["target.ra"], answers["target.dec"] = "my patch", "05h38m42s", `69°06'S`
	data, err := kit.Template(answers)
	require.NoError(t, err)
	k, err := kit.Read(data, "new.toml")
	require.NoError(t, err)
	assert.InDelta(t, -69.1, k.Targets[0].Star.Place.Dec.Degrees(), 1e-12)
}

func TestWhateverIsAnsweredTheTemplateReadsOrRefuses(t *testing.T) {
	keys := kit.FieldNames()
	rapid.Check(t, func(t *rapid.T) {
		answers := exampleAnswers()
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			answer := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+]?[0-9]{1,4}(\.[0-9]{1,3})?`)).Draw(t, "answer")
			answers[rapid.SampledFrom(keys).Draw(t, "key")] = answer
		}
		data, err := kit.Template(answers)
		if err != nil {
			return
		}
		_, err = kit.Read(data, "new.toml")
		for _, q := range kit.Questions() {
			if answers[q.Key] == "" {
				return // Read rightly misses it
			}
		}
		if err != nil {
			t.Fatalf("a template that was given out is refused: %v\n%s", err, data)
		}
	})
}

func TestReferenceHasARowForEveryKey(t *testing.T) {
	rows := strings.Count(string(kit.Reference()), "\n| `")
	assert.Equal(t, len(kit.FieldNames()), rows)
}
