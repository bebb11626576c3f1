package record_test

import (
	"bytes"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// The frames that came are in the record: how sharp they were, and what they said of the field, run by run.
func TestWhatTheFramesShowedIsKept(t *testing.T) {
	k := kit.Example()
	s := (&story{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{})
	for i, hfd := range []float64{2.0, 2.4, 2.1} {
		start, exposure := dusk.Add(time.Duration(1+2*i)*time.Minute+time.Second), 60.0
		ns := start.UnixNano()
		body := checklist.SubArrivedBody{Path: fmt.Sprintf("/subs/L_%d.fits", i), StartNs: &ns, ExposureS: &exposure, Filter: "L", Kind: "light", BinX: 1, BinY: 1,
			SeenNs: start.Add(64 * time.Second).UnixNano(), Measured: &checklist.MeasuredBody{Stars: 500, HFD: hfd, Elongation: 1.1}}
		if i > 0 {
			body.Turning = &checklist.TurningBody{Kind: []string{"", "cannot tell", "steady"}[i], RateDegPerH: 0.021, ErrorDegPerH: 0.03, Lights: i + 1}
		}
		s.say(float64(2+2*i)+0.5, checklist.SubArrived{Body: body})
	}
	s.say(9, checklist.StopSubs{})
	r := of(k, s.night())
	run := r.Nights[0].Targets[0].Runs[0]
	require.NotNil(t, run.Frames)
	assert.Equal(t, 3, run.Frames.Measured)
	assert.InDelta(t, 2.1*k.ScaleArcsecPerPixel(), run.Frames.HFDArcsec, 1e-9, "the median, at the kit's scale")
	assert.Equal(t, "steady", run.Frames.Field)
	assert.Equal(t, 3, run.Subs(), "what came, not the time")
	var text, json bytes.Buffer
	require.NoError(t, r.Text(&text))
	assert.Contains(t, text.String(), "lights measured")
	assert.Contains(t, text.String(), "steady, 0.02° ± 0.03° an hour")
	require.NoError(t, r.JSON(&json))
	assert.Contains(t, json.String(), `"field": "steady"`)
}

// A camera that turned at one go between two lights has no rate, so the record keeps what the lights before it said.
func TestATurnAtOneGoIsNoRateOfTheField(t *testing.T) {
	s := (&story{t: t}).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{})
	for i, said := range []checklist.TurningBody{
		{Kind: "steady", RateDegPerH: 0.021, ErrorDegPerH: 0.03, Lights: 3},
		{Kind: "residual", RateDegPerH: 88.3, ErrorDegPerH: 0.85, Lights: 2, Explained: &checklist.ExplainedBody{By: checklist.ExplainedByStep, StepDeg: 0.3}},
	} {
		start, exposure := dusk.Add(time.Duration(1+2*i)*time.Minute+time.Second), 60.0
		ns := start.UnixNano()
		s.say(float64(2+2*i)+0.5, checklist.SubArrived{Body: checklist.SubArrivedBody{Path: fmt.Sprintf("/subs/L_%d.fits", i), StartNs: &ns, ExposureS: &exposure,
			Filter: "L", Kind: "light", BinX: 1, BinY: 1, SeenNs: start.Add(64 * time.Second).UnixNano(),
			Measured: &checklist.MeasuredBody{Stars: 500, HFD: 2, Elongation: 1.1}, Turning: &said}})
	}
	frames := of(kit.Example(), s.say(9, checklist.StopSubs{}).night()).Nights[0].Targets[0].Runs[0].Frames
	require.NotNil(t, frames)
	assert.Equal(t, "steady", frames.Field)
	assert.InDelta(t, 0.021, frames.RateDegPerH, 1e-9)
}
