package frame_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/frame"
)

// drawn is the field of the example night as the camera sees it, so that right and up are those of the chip.
func drawn(k kit.Kit, log checklist.Night) (draw.FieldValues, framing.Chip) {
	now := time.Date(2026, time.December, 5, 11, 10, 0, 0, time.UTC)
	t := facts.For(k, plan.Date{Year: 2026, Month: time.December, Day: 5}, log, now, nil)
	f := t.At(now).FrameAt(t.FramingOf())
	view := frame.View{AsCamera: true}
	return view.Field(f, 2), view.Of(f)
}

// named returns the name in a field that begins so.
func named(v draw.FieldValues, begins string) (draw.FieldName, bool) {
	for _, name := range v.Names {
		if len(name.Text) >= len(begins) && name.Text[:len(begins)] == begins {
			return name, true
		}
	}
	return draw.FieldName{}, false
}

func TestTheAxisIsDrawnWhereItIsKnown(t *testing.T) {
	k := kit.Example()
	bare, chip := drawn(k, checklist.Night{})
	_, there := named(bare, "axis")
	assert.False(t, there, "nobody knows it")
	perPixel := float64(framing.MainSensor(k).PerPixel / chip.PerPixel)

	k.Camera.Axis = &kit.PixelOffset{Right: 180, Up: -240}
	said, _ := drawn(k, checklist.Night{})
	name, there := named(said, "axis")
	require.True(t, there)
	assert.Equal(t, "axis", name.Text, "the kit says it, without an error")
	assert.InDelta(t, 180*perPixel, name.Right, 1e-4, "the sky is not flat")
	assert.InDelta(t, -240*perPixel, name.Up, 1e-4)

	k.Camera.Axis = nil
	var log checklist.Night
	log.Arrived = []checklist.Arrived{{SubArrivedBody: checklist.SubArrivedBody{Turned: &checklist.TurnedBody{
		RotationDeg: 31, AboutX: 180, AboutY: -240, ErrorPx: 0.1, Parity: 1, Free: true}}}}
	learned, _ := drawn(k, log)
	name, there = named(learned, "axis ± ")
	require.True(t, there, "learned, with its σ")
	assert.InDelta(t, 180*perPixel, name.Right, 1e-4)
	round := learned.Lines[len(learned.Lines)-1]
	for _, line := range learned.Lines {
		if line.Dashed && len(line.Spots) == 48 {
			round = line
		}
	}
	sigma := 5 / framing.MainSensor(k).PerPixel.Arcseconds() / (2 * 0.26724) // 2·sin(31°/2)
	assert.InDelta(t, sigma*perPixel, round.Spots[0].Right-name.Right, 0.02*sigma*perPixel)
}
