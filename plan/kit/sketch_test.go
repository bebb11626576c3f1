package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
	"duskhand/sky"
)

func TestASketchKnowsWhatWasAnswered(t *testing.T) {
	s := kit.NewSketch(map[string]string{"optics.focal_length_mm": "480", "camera.pixel_um": "3.76", "target.name": "NGC 2070"})
	assert.Empty(t, s.Faults, "what is missing is no fault")
	assert.True(t, s.Has("optics.focal_length_mm", "camera.pixel_um"))
	assert.False(t, s.Has("optics.focal_length_mm", "camera.width_px"))
	assert.False(t, s.Has("mount.floor_deg"), "a default is no answer")
	assert.Equal(t, 20*sky.Degree, s.Kit.Mount.Floor, "but holds")
	assert.InDelta(t, 206.265*3.76/480, s.Kit.ScaleArcsecPerPixel(), 1e-5) // the project's handbook, section 9
	assert.Equal(t, "NGC 2070", s.Kit.Targets[0].Object.ID)
	assert.Empty(t, kit.NewSketch(nil).Faults)
}

func TestASketchFindsFaultsAloneAndTogether(t *testing.T) {
	cases := []struct {
		name    string
		answers map[string]string
		key     string
		says    string
	}{
		{"a value out of range", map[string]string{"camera.pixel_um": "376"}, "camera.pixel_um", "= 376 is out of range; give 0.5 to 50 µm"},
		{"half a number", map[string]string{"site.latitude": "-"}, "site.latitude", "-"},
		{"limits exchanged", map[string]string{"derotator.min_deg": "16", "derotator.max_deg": "-16"}, "derotator.max_deg", "is below derotator.min_deg = 16; give the smaller limit first"},
		{"an answer beside a default", map[string]string{"mount.ceiling_deg": "18", "stars.lowest_deg": "10"}, "mount.floor_deg", "= 20 (the default) is not below mount.ceiling_deg = 18"},
		{"the zone of another continent", map[string]string{"site.longitude": "141.5", "site.zone": "Europe/Berlin"}, "site.zone", "from the Sun's time"},
		{"an object that is none", map[string]string{"target.name": "Tarantulla"}, "target.name", "did you mean Tarantula"},
		{"a chip behind a short lens", map[string]string{"optics.focal_length_mm": "10", "camera.pixel_um": "9", "camera.width_px": "6000", "camera.height_px": "10"}, "camera.height_px", "out of range"},
		{"a key that is none", map[string]string{"site.latitud": "3"}, "site.latitud", "did you mean site.latitude?"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := kit.NewSketch(c.answers)
			require.Len(t, s.Faults, 1)
			fault, found := s.Fault(c.key)
			require.True(t, found, "%v", s.Faults)
			assert.Contains(t, fault.Problem, c.says)
			assert.NotContains(t, fault.Problem, "[1]")
			_, found = s.Fault("site.name")
			assert.False(t, found)
			assert.False(t, s.Has(c.key))
		})
	}
}

// A sketch of all the questions finds a fault exactly where the file would be refused.
func TestASketchAgreesWithTheTemplate(t *testing.T) {
	questions := kit.Questions()
	rapid.Check(t, func(t *rapid.T) {
		answers := exampleAnswers()
		for range rapid.IntRange(0, 3).Draw(t, "changes") {
			q := rapid.SampledFrom(questions).Draw(t, "question")
			answers[q.Key] = rapid.StringMatching(`-?[1-9][0-9]{0,4}`).Draw(t, "answer")
		}
		_, err := kit.Template(answers)
		if faults := kit.NewSketch(answers).Faults; (err == nil) != (len(faults) == 0) {
			t.Fatalf("the sketch says %v, the template %v", faults, err)
		}
	})
}
