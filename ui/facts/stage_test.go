package facts_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/frames/stage"
	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/ui/facts"
)

// placed is a light of two minutes with a camera angle.
func placed(r facts.Run, i int, start time.Time, angle sky.Angle) checklist.Arrived {
	a := frame(fmt.Sprintf("/subs/P_%d.fits", i), start, 0)
	ours, centre := start.UnixNano(), framing.Middle(r.Target)
	a.OursNs = &ours
	a.Placed = &checklist.PlacedBody{RADeg: centre.RA.Degrees(), DecDeg: centre.Dec.Degrees(), CameraAngleDeg: angle.Degrees(), AngleErrorDeg: 0.003, ScaleArcsec: 1}
	return a
}

// A slip of 0.3° has a name and a number, warns, and is over some subs later; a stage that stands calls.
func TestASlipIsNamedAndAStandingStageCalls(t *testing.T) {
	begins := dusk.Add(2 * time.Minute)
	start := func(i int) time.Time { return begins.Add(time.Duration(i) * 3 * time.Minute) }
	n := exposing(t)
	r := n.at(start(0))
	for i := range 12 {
		angle := 50 * sky.Degree
		if i >= 6 {
			angle += 0.3 * sky.Degree
		}
		n.log.Arrived = append(n.log.Arrived, placed(r, i, start(i), angle))
		r = n.at(start(i).Add(2 * time.Minute))
		a := alert(t, r, nil, facts.StageSlips)
		switch {
		case i < 6 || i > 9:
			assert.Equal(t, advice.Quiet, a.Level, "light %d", i)
		case i >= 7:
			assert.Equal(t, advice.Warning, a.Level, "light %d", i)
			assert.Contains(t, a.Words, "the stage slipped by 0.30° before the sub of ")
			assert.Equal(t, "the stage slipped by 0.30°", a.Brief)
		}
	}
	assert.Equal(t, stage.Slipped, r.Stage().Kind)
	for i := 12; i < 17; i++ {
		grown := r.Course.FieldAngle(start(i)) - r.Course.FieldAngle(start(11))
		n.log.Arrived = append(n.log.Arrived, placed(r, i, start(i), 50.3*sky.Degree+grown))
	}
	a := alert(t, n.at(start(17)), nil, facts.StageSlips)
	assert.Equal(t, advice.Calling, a.Level)
	assert.Contains(t, a.Words, "the stage has stood since ")
	assert.Regexp(t, `^the stage stands: \d\.\d+°$`, a.Brief)
}
