package turning_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/turning"
	"duskhand/sky"
)

// A camera that slips once is told by how much it slipped when the next light holds still, whatever the slip looked
// like at first: here it is about what the field itself turns from light to light.
func TestASlipIsNamed(t *testing.T) {
	course := exampleCourse(0, 0)
	from := evening(course)
	field := simulate.NewField(simulate.Small(31))
	for _, c := range []struct {
		slip     sky.Angle
		exposure time.Duration
	}{{0.3 * sky.Degree, 50 * time.Second}, {-0.3 * sky.Degree, 50 * time.Second}, {0.3 * sky.Degree, 3 * time.Minute}, {0.8 * sky.Degree, 3 * time.Minute}} {
		verdicts, _ := run{field, course, from, c.exposure, 12, turning.Direct, 3757, func(i int, s *simulate.Shot) {
			dithered(3)(i, s)
			if i >= 6 {
				s.Turned = turnedBy(c.slip)
			}
		}}.verdicts()
		named := 0
		for i, v := range verdicts {
			if step, ok := v.Step(); ok {
				named++
				assert.InDelta(t, c.slip.Degrees(), step.Degrees(), 0.02, "light %d", i)
				assert.LessOrEqual(t, i, 7)
				assert.Equal(t, turning.Residual, v.Kind)
			}
			assert.False(t, v.Alarm, "a slip once done calls for nobody")
		}
		assert.Equal(t, 1, named, "%v in %v", c.slip, c.exposure)
		assert.NotEqual(t, turning.Off, verdicts[8].Kind)
	}
}
