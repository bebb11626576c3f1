package record_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/kit"
)

// Where each light looks is what a stacker's person wants: in JSON, as a table of its own, and in short run by run.
func TestWhereEachLightLooksIsKept(t *testing.T) {
	k := kit.Example()
	s := (&story{t: t}).say(-1, target(k, 0)).say(0, checklist.TurnOn{Angle: deg(-16)}).say(1, checklist.StartSubs{})
	for i, angle := range []float64{101.2, 101.3, 101.25} {
		start, exposure := dusk.Add(time.Duration(1+2*i)*time.Minute+time.Second), 60.0
		ns := start.UnixNano()
		body := checklist.SubArrivedBody{Path: fmt.Sprintf("/subs/=L_%d.fits", i), StartNs: &ns, ExposureS: &exposure, Filter: "L", Kind: "light", BinX: 1, BinY: 1,
			SeenNs: start.Add(64 * time.Second).UnixNano(), Measured: &checklist.MeasuredBody{Stars: 500, HFD: 2, Elongation: 1.1}}
		if i != 1 {
			body.Placed = &checklist.PlacedBody{Near: "NGC 2070", RADeg: 84.6, DecDeg: -69.1, CameraAngleDeg: angle, AngleErrorDeg: 0.002, ScaleArcsec: 1.503, Mirrored: true, StarsMatched: 50}
		}
		s.say(float64(2+2*i)+0.5, checklist.SubArrived{Body: body})
	}
	s.say(9, checklist.StopSubs{})
	r := of(k, s.night())
	lights := r.Nights[0].Lights
	require.Len(t, lights, 2, "one was not placed")
	assert.Equal(t, 1, lights[0].Run)
	assert.NotEqual(t, lights[0].CameraAngle(), lights[0].AtTarget, "the middle is a little off the target")
	assert.InDelta(t, lights[0].CameraAngleDeg, lights[0].AtTarget.Degrees(), 0.1)

	var table, document, text bytes.Buffer
	require.NoError(t, r.LightsCSV(&table))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	assert.Equal(t, []string{"2026-12-05", "'=L_0.fits", "NGC 2070", "1", "L"}, rows[1][:5])
	assert.Equal(t, []string{"84.6", "-69.1", "101.2"}, rows[1][7:10])
	assert.Equal(t, []string{"0.002", "1.503", "true", "50", "", "3.01", "1.1", "0"}, rows[1][11:])

	require.NoError(t, r.JSON(&document))
	var back struct {
		Nights []struct {
			Lights  []map[string]any `json:"lights"`
			Targets []struct {
				Runs []struct {
					Seen map[string]any `json:"seen"`
				} `json:"runs"`
			} `json:"targets"`
		} `json:"nights"`
	}
	require.NoError(t, json.Unmarshal(document.Bytes(), &back))
	assert.Equal(t, 101.25, back.Nights[0].Lights[1]["camera_angle_deg"])
	assert.Equal(t, true, back.Nights[0].Lights[1]["mirrored"])

	at := lights[0].AtTarget.Degrees() + 0.025 // the middle of 101.2 and 101.25
	seen := back.Nights[0].Targets[0].Runs[0].Seen
	assert.Equal(t, 2.0, seen["lights"])
	assert.InDelta(t, at, seen["camera_angle_deg"], 0.001)
	assert.Equal(t, "turned", seen["stage"])
	groups := r.Nights[0].Targets[0].Groups
	require.Len(t, groups, 1)
	assert.InDelta(t, at, groups[0].CameraAngle.Degrees(), 0.001, "runs that were all seen are compared by what was seen")

	var runs bytes.Buffer
	require.NoError(t, r.CSV(&runs))
	rows, err = csv.NewReader(&runs).ReadAll()
	require.NoError(t, err)
	last := rows[1][len(rows[1])-7:]
	assert.Equal(t, []string{"", "2"}, last[:2], "no light has shown where the go-to ended")
	assert.Equal(t, []string{"0.025", "1.503", "true", "turned"}, last[3:])

	require.NoError(t, r.Text(&text))
	assert.Regexp(t, `Run 1: the stars show the camera at 101\.2°, \d+\.\d° from what the kit's camera\.angle_at_zero_deg`, text.String())
	assert.Contains(t, text.String(), "the camera turned by 0.05° before ")
	assert.Contains(t, text.String(), "lights placed")
	assert.Regexp(t, `1\s+2\s+101\.\d\d°\s+0\.03°\s+1\.5030″\s+mirrored`, text.String())
}
