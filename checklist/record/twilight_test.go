package record_test

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan"
)

// The Sun is 12° down at 10:30:25 UTC and 18° at 11:07:01 (sky's twilight, which testdata/reference/twilight.csv holds
// to an independent library). Subs of 60 s through L from 10:30 on.
func TestTheRecordKeepsTheSunOfEachSub(t *testing.T) {
	k := sixty()
	s := (&story{t: t}).say(-60, checklist.OpenNight{}, target(k, 0)).say(-41, checklist.TurnOn{Angle: deg(-16)}).
		say(-40, checklist.StartSubs{Filter: "L"}).say(20, checklist.StopSubs{}).say(21, checklist.TurnOff{})
	r := of(k, s.night())
	f := r.Nights[0].Targets[0].Runs[0].Filters[0]
	require.Len(t, f.Sun, f.Count+f.Early)
	assert.InDelta(t, -12.0, f.Sun[0].Degrees(), 0.05, "at 10:30:30; the Sun sinks by 0.17° a minute")
	dark := time.Date(2026, 12, 5, 11, 7, 1, 0, time.UTC)
	early := int(dark.Add(-30*time.Second).Sub(dusk.Add(-40*time.Minute))/(332*time.Second)) * 5 // whole fives before, by their middles
	assert.InDelta(t, early, f.Early, 5)
	assert.Equal(t, f.Sun[0], f.SunHighest())
	assert.Equal(t, f.Count, r.Nights[0].Targets[0].Counts[0].Count, "they count apart over the night too")
	assert.Equal(t, f.Early, r.Nights[0].Targets[0].Counts[0].Early)
	var out bytes.Buffer
	require.NoError(t, r.Text(&out))
	assert.Contains(t, out.String(), "subs through L were taken in twilight, the Sun 12.0° down at the least. They are not counted.")
	assert.Contains(t, out.String(), "flat-darks  filter L")
}

// Flats that are owed can be taken of the morning's sky: the record says when, through each filter, while the Sun stands
// some degrees below the horizon (common practice: 2° to 10°).
// Flats that are done have no such time.
func TestTheRecordSaysWhenTheSkyIsRightForFlats(t *testing.T) {
	k := sixty()
	s := (&story{t: t}).say(-60, checklist.OpenNight{}, target(k, 0)).say(-41, checklist.TurnOn{Angle: deg(-16)}).
		say(-40, checklist.StartSubs{}).say(90, checklist.StopSubs{}).say(91, checklist.TurnOff{})
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	seen := 0
	for _, o := range of(k, s.night()).Nights[0].Owed {
		if o.Frames != "flats" {
			assert.Zero(t, o.Sky, o.Frames)
			continue
		}
		seen++
		require.Positive(t, o.Sky.Length(), o.For)
		assert.True(t, o.Sky.From.After(night.Twilight.AstronomicalDawn.At) && !o.Sky.To.After(night.Twilight.Sunrise.At), "%s: %v", o.For, o.Sky)
		for _, at := range []time.Time{o.Sky.From, o.Sky.To} {
			sun := night.Frame.Sun(at).Altitude.Degrees()
			assert.True(t, sun < 0 && sun > -10, "%s: the Sun %.1f° high", o.For, sun)
		}
	}
	assert.Equal(t, 4, seen, "L, R, G and B")
	var out bytes.Buffer
	require.NoError(t, of(k, s.night()).Text(&out))
	assert.Regexp(t, `flats +filter L +owed; not recorded; the morning's sky is right from \d\d:\d\d to \d\d:\d\d`, out.String())
	silent := k
	silent.Optics.Transmission = 0
	out.Reset()
	require.NoError(t, of(silent, s.night()).Text(&out))
	assert.Contains(t, out.String(), "When the sky is right for flats would be known with optics.transmission in the kit.")
	s.event(100, checklist.KindStepDone, checklist.StepDoneBody{Step: "flats"})
	for _, o := range of(k, s.night()).Nights[0].Owed {
		assert.Zero(t, o.Sky, "done")
	}
}
