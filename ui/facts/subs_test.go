package facts_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// frame is a light of a minute through L, seen 4 s after its end by a clock that is ahead of the capture
// computer's by behind.
func frame(path string, start time.Time, behind time.Duration) checklist.Arrived {
	const exposure = time.Minute
	end := start.Add(exposure)
	ns, seconds := start.Add(-behind).UnixNano(), exposure.Seconds()
	return checklist.Arrived{SubArrivedBody: checklist.SubArrivedBody{
		Path: path, SizeBytes: 52e6, ChangedNs: end.Add(3*time.Second - behind).UnixNano(), SeenNs: end.Add(4 * time.Second).UnixNano(), LateS: 1,
		StartNs: &ns, ExposureS: &seconds, Filter: "L", Object: "NGC 2070", Kind: "light", BinX: 1, BinY: 1, Width: 6248, Height: 4176,
	}}
}

// exposing is a night in which subs have been taken from dusk on, in the folder that the kit watches.
func exposing(t require.TestingT) *night {
	n := &night{t: t, kit: kit.Example()}
	n.kit.Watch.Folders = []string{"/subs"}
	n.at(dusk, checklist.TurnOn{Angle: degrees(-16)})
	n.at(dusk.Add(time.Minute), checklist.StartSubs{})
	return n
}

func alert(t *testing.T, r facts.Run, free *uint64, kind facts.AlertKind) say.Alert {
	t.Helper()
	for _, a := range say.Alerts(r, r.Advice(), r.SubsAt(free, false)) {
		if a.Kind == kind {
			return a
		}
	}
	require.Fail(t, "no such alert", string(kind))
	return say.Alert{}
}

// What stands all night, a clock that is off and a disk that is too small, does not hide a silent sequence; and a
// frame ends the silence.
func TestSilenceIsCalledWhateverElseStands(t *testing.T) {
	n := exposing(t)
	for i := range 4 {
		n.log.Arrived = append(n.log.Arrived, frame(fmt.Sprintf("/subs/L_%d.fits", i), dusk.Add(time.Duration(2+2*i)*time.Minute), 90*time.Second))
	}
	nearlyFull := uint64(100e6)
	last := dusk.Add(9*time.Minute + 4*time.Second) // the fourth frame was seen
	r := n.at(last.Add(time.Minute))
	require.Equal(t, advice.Quiet, alert(t, r, &nearlyFull, facts.SubsStall).Level)
	r = n.at(last.Add(6 * time.Minute))
	kinds := map[arrival.Kind]time.Time{}
	for _, notice := range r.SubsAt(&nearlyFull, false).Notices {
		kinds[notice.Kind] = notice.At
	}
	assert.Equal(t, dusk.Add(7*time.Minute+4*time.Second), kinds[arrival.ClockOff], "the third frame, as two are too few to say so")
	assert.Equal(t, last, kinds[arrival.DiskShort])
	assert.Equal(t, advice.Calling, alert(t, r, &nearlyFull, facts.SubsStall).Level)
	assert.Contains(t, alert(t, r, &nearlyFull, facts.SubsStall).Words, "no new sub for 6 min")

	later := n.at(last.Add(20 * time.Minute))
	for _, notice := range later.SubsAt(&nearlyFull, false).Notices {
		assert.Equal(t, kinds[notice.Kind], notice.At, "%s does not renew itself", notice.Kind)
	}
	n.log.Arrived = append(n.log.Arrived, frame("/subs/L_9.fits", last.Add(20*time.Minute), 90*time.Second))
	r = n.at(last.Add(22 * time.Minute))
	assert.Equal(t, advice.Quiet, alert(t, r, &nearlyFull, facts.SubsStall).Level)
}

// A run that has gone on to the limit is called as that, though "act now" has been on since the rewind was due.
func TestTheLimitIsAnAlertOfItsOwn(t *testing.T) {
	n := exposing(t)
	r := n.at(dusk.Add(2 * time.Minute))
	last, ok := r.Call.Last()
	require.True(t, ok)
	due := n.tonight.At(last.Over)
	assert.Equal(t, advice.Calling, alert(t, due, nil, facts.ActNow).Level)
	assert.Equal(t, advice.Quiet, alert(t, due, nil, facts.LimitReached).Level)
	past := n.tonight.At(r.Call.Limit.At.At)
	assert.Equal(t, advice.Calling, alert(t, past, nil, facts.ActNow).Level)
	at := alert(t, past, nil, facts.LimitReached)
	assert.Equal(t, advice.Calling, at.Level)
	assert.Equal(t, "the derotator stands at its limit and the field turns: stop the subs, rewind", at.Words)
}

// BenchmarkSecondWith600Frames is what a second costs late in a long night: the facts of the instant, what the
// frames say, and the slow facts, which are due once a minute and with each event.
func BenchmarkSecondWith600Frames(b *testing.B) {
	n := exposing(b)
	filters := []string{"L", "R", "G", "B"}
	for i := range 600 {
		f := frame(fmt.Sprintf("/subs/%03d.fits", i), dusk.Add(time.Duration(60+40*i)*time.Second), 0)
		f.Filter = filters[i/10%len(filters)]
		n.log.Arrived = append(n.log.Arrived, f)
	}
	now := dusk.Add(6 * time.Hour)
	r := n.at(now)
	b.Run("instant", func(b *testing.B) {
		for range b.N {
			n.tonight.At(now)
		}
	})
	b.Run("frames", func(b *testing.B) {
		for range b.N {
			r.SubsAt(nil, false)
		}
	})
	b.Run("slow", func(b *testing.B) {
		for range b.N {
			facts.For(n.kit, date, n.log, now, n.tonight)
		}
	})
}
