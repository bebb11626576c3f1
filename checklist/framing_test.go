package checklist_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func TestFramingComesBackAsItWasSaid(t *testing.T) {
	angle := 72.5 * sky.Degree
	said := checklist.Framing{Target: "NGC 2070", CameraAngle: &angle, Keep: kit.AlwaysKeep,
		Middle: kit.SkyOffset{East: 12 * sky.Arcminute, North: -5 * sky.Arcminute}, Rows: 2, Columns: 3, Overlap: 0.2}
	other := checklist.Framing{Target: "NGC 1365", Keep: kit.PreferAngle}
	s := begin(t).say(1, checklist.FrameTarget{Framing: said}).say(2, checklist.FrameTarget{Framing: other})
	got, ok := s.night.Framing("NGC 2070")
	require.True(t, ok)
	assert.InDelta(t, 72.5, got.CameraAngle.Degrees(), 1e-9)
	assert.InDelta(t, 12, got.Middle.East.Arcminutes(), 1e-9)
	assert.InDelta(t, -5, got.Middle.North.Arcminutes(), 1e-9)
	assert.Equal(t, []any{kit.AlwaysKeep, 2, 3, 0.2}, []any{got.Keep, got.Rows, got.Columns, got.Overlap})
	assert.Equal(t, "framed NGC 1365", checklist.Words(*s.night.Undoable))

	s.say(3, checklist.FrameTarget{Framing: checklist.Framing{Target: "NGC 2070"}})
	got, _ = s.night.Framing("NGC 2070")
	assert.Nil(t, got.CameraAngle, "the latest holds")
	assert.Len(t, s.night.Framings, 2, "one of each target")
	s.say(4, checklist.Undo{})
	got, _ = s.night.Framing("NGC 2070")
	require.NotNil(t, got.CameraAngle, "an undo brings the earlier one back")
	_, ok = s.night.Framing("M 42")
	assert.False(t, ok)
}

func TestFramingsThatMakeNoSenseAreRefused(t *testing.T) {
	s := begin(t)
	nan := sky.Angle(math.NaN())
	for _, test := range []struct {
		name    string
		framing checklist.Framing
		words   string
	}{
		{"no target", checklist.Framing{}, "the framing names no target; give the one that it is for"},
		{"no number", checklist.Framing{Target: "M 42", CameraAngle: &nan}, "the framing is not a number; give it in degrees"},
		{"rows without columns", checklist.Framing{Target: "M 42", Rows: 2}, "a mosaic of 2 × 0 fields can't be; give rows and columns from 1 to 12"},
		{"too many", checklist.Framing{Target: "M 42", Rows: 13, Columns: 1}, "a mosaic of 13 × 1 fields can't be; give rows and columns from 1 to 12"},
		{"all overlap", checklist.Framing{Target: "M 42", Rows: 2, Columns: 2, Overlap: 1}, "fields can't overlap by 1 of their size; give a share from 0 to 0.9"},
	} {
		s.refuses(checklist.FrameTarget{Framing: test.framing}, test.words)
	}
}
