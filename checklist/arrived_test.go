package checklist_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
)

// A frame that was read stays in the night; undo goes past it to what a person said.
func TestArrivedSubsAreKeptAndNotUndone(t *testing.T) {
	start := dusk.Add(40 * time.Minute).UnixNano()
	seconds := 60.0
	body := checklist.SubArrivedBody{Path: "/subs/L_001.fits", SizeBytes: 52_000_000, StartNs: &start, ExposureS: &seconds, Filter: "L", Kind: "light",
		Measured: &checklist.MeasuredBody{Stars: 812, HFD: 3.1}, Turning: &checklist.TurningBody{Kind: "steady", RateDegPerH: 0.02}}
	s := begin(t).say(40, checklist.TurnOn{Angle: deg(0)}).say(42, checklist.SubArrived{Body: body})
	require.Len(t, s.night.Arrived, 1)
	assert.Equal(t, body, s.night.Arrived[0].SubArrivedBody)
	assert.Equal(t, "sub L_001.fits", checklist.Words(s.events[len(s.events)-1]))
	s.say(43, checklist.Undo{})
	assert.False(t, s.night.DerotatorOn, "the derotator's turning on was the last that a person said")
	assert.Len(t, s.night.Arrived, 1)
	s.refuses(checklist.SubArrived{}, "the frame has no path; give the file's")
}
