package exposure_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/framing"
	"duskhand/sky"
)

func exampleWindow() (*plan.Night, *plan.Course, plan.Window) {
	n, _ := nightOf(moonless())
	c := n.Course(n.Kit.Targets[0], n.Kit.Axis)
	return n, c, c.Windows()[0]
}

func TestASubEndsBeforeTheRewind(t *testing.T) {
	_, c, w := exampleWindow()
	reading := 10 * sky.Degree
	at := w.From.Add(time.Hour)
	got := exposure.Longest(c, plan.Span{From: at, To: w.To}, &reading)
	limit := c.Limit(plan.Anchor{At: at, Angle: reading}, w.To)
	require.True(t, limit.Early.OK)
	assert.True(t, got.ByLimit)
	// The early bound, less the kit's minute of margin and 4 s of overhead.
	assert.Equal(t, limit.Early.At.Sub(at)-64*time.Second, got.Run)
}

func TestWithoutAReadingTheLongestRunCounts(t *testing.T) {
	_, c, w := exampleWindow()
	at := w.From.Add(time.Hour)
	span := plan.Span{From: at, To: w.To}
	free := exposure.Longest(c, span, nil)
	assert.InDelta(t, c.PlannedRun(at, w.To).Until.Sub(at).Seconds()-64, free.Run.Seconds(), 1)
	for _, degrees := range []float64{-16, -8, 0, 8, 16} {
		reading := sky.Angle(degrees) * sky.Degree
		assert.LessOrEqual(t, exposure.Longest(c, span, &reading).Run, free.Run+5*time.Minute, "%v°", degrees) // the guard that PlannedRun keeps costs some minutes
	}
}

func TestASubEndsWithTheWindow(t *testing.T) {
	_, c, w := exampleWindow()
	span := plan.Span{From: w.From, To: w.From.Add(10 * time.Minute)}
	got := exposure.Longest(c, span, nil)
	assert.False(t, got.ByLimit)
	assert.Equal(t, 10*time.Minute-4*time.Second, got.Run)
	late := exposure.Longest(c, plan.Span{From: w.From, To: w.From.Add(3 * time.Second)}, nil)
	assert.Zero(t, late.Run, "the overhead alone is longer")
}

func TestWithoutDerotationTheCornerTrails(t *testing.T) {
	_, c, w := exampleWindow()
	at := w.From.Add(time.Hour)
	still := exposure.Longest(c, plan.Span{From: at, To: w.To}, nil).Still
	require.True(t, still.OK)
	turned := c.FieldAngle(at.Add(still.Value)) - c.FieldAngle(at)
	assert.InDelta(t, 1, math.Abs(turned.Radians())*framing.MainSensor(c.Kit).CornerPixels(), 0.001)
}
