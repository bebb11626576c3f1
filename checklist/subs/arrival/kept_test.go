package arrival_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func keptFrame(path string) arrival.Frame {
	at := time.Date(2026, 12, 5, 12, 30, 0, 250_000_000, time.UTC)
	exposure, sensor := 60*time.Second, -10.1
	return arrival.Frame{
		File: arrival.File{Path: path, Size: 52_194_240, Changed: at.Add(65 * time.Second)}, Seen: at.Add(66 * time.Second), Late: 2 * time.Second,
		Header: subs.Header{Start: &at, Exposure: &exposure, Filter: "L", Object: "NGC 2070", Kind: subs.Light, SensorC: &sensor, BinX: 1, BinY: 1, Width: 6248, Height: 4176},
		Measured: &subs.Measured{Background: 812, Noise: 20, Count: 900, HFD: 2.9, Elongation: 1.1, Direction: 30 * sky.Degree,
			Ninths: [9]float64{3, 2.9, 3, 2.9, 2.8, 0, 3, 3, 3.1}, Saturated: 0.001, Full: 9, Colours: []subs.Colour{{Name: "R", Background: 700, Noise: 18, Saturated: 0.0002}}},
		Remarks: []string{"no TIMESYS"},
	}
}

// A frame that went through the journal comes back as it was.
func TestFramesComeBackFromTheJournal(t *testing.T) {
	for _, f := range []arrival.Frame{keptFrame("/a/L_1.fits"), {File: arrival.File{Path: "/a/x.cr2", Size: 3, Changed: time.Unix(5, 0).UTC()}, Seen: time.Unix(6, 0).UTC(), Unread: "no FITS", Already: true}} {
		raw, err := json.Marshal(arrival.BodyOf(f))
		require.NoError(t, err)
		var body checklist.SubArrivedBody
		require.NoError(t, json.Unmarshal(raw, &body))
		assert.Equal(t, f, arrival.FrameOf(checklist.Arrived{SubArrivedBody: body}))
	}
}

// A file that was read twice, or renamed, counts once, as it was last.
func TestKeptFramesCountOnce(t *testing.T) {
	other := keptFrame("/a/0.fits")
	earlier := other.Header.Start.Add(-time.Hour)
	other.Header.Start = &earlier
	first, again, renamed := keptFrame("/a/1.fits"), keptFrame("/a/1.fits"), keptFrame("/a/2.fits")
	again.Seen, again.Size, renamed.Was, renamed.Size, renamed.Seen = again.Seen.Add(time.Second), 7, "/a/1.fits", 7, again.Seen.Add(2*time.Second)
	var n checklist.Night
	for _, f := range []arrival.Frame{first, other, again, renamed} {
		n.Arrived = append(n.Arrived, checklist.Arrived{SubArrivedBody: arrival.BodyOf(f)})
	}
	var paths []string
	for _, e := range arrival.Keep(arrival.Kept(n), arrival.Situation{Kit: kit.Example()}).Entries {
		paths = append(paths, e.Path)
	}
	assert.Equal(t, []string{"/a/0.fits", "/a/2.fits"}, paths)
}
