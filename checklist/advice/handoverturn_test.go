package advice_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// plainKit is of an invented site, with two targets that share the night.
const plainKit = `
site = { name = "Invented Plain", latitude = -34.4, longitude = 139.2, zone = "Australia/Adelaide" }
axis = { tilt_deg = 3, toward_deg = 300, uncertainty_deg = 0.8 }
derotator = { min_deg = -60, max_deg = 70, stops = "anywhere", largest_rate_deg_per_h = 60, rewind_deg_per_s = 1 }
optics = { aperture_mm = 80, focal_length_mm = 400 }
camera = { pixel_um = 3.76, width_px = 6248, height_px = 4176 }
subs = { filter = [{ name = "L", exposure_s = 90, count = 90 }, { name = "Ha", exposure_s = 300, count = 50 }] }
target = [{ name = "NGC 253", share = 1 }, { name = "M 42", share = 1 }]
`

// The stage would reach its limit on M 42 three quarters of an hour before dawn. A rewind then gives as many subs as one
// at the hand-over, but somebody must get up for it: it was asked for after framing and guiding, minutes before the
// window, where it turned what had been framed.
func TestAHandOverTurnsTheStageBeforeThePictureIsFramed(t *testing.T) {
	k, err := kit.Read([]byte(plainKit), "kit.toml")
	require.NoError(t, err)
	n := &model{t: t, kit: k, steps: checklist.Steps(), date: plan.Date{Year: 2026, Month: time.December, Day: 12}}
	at := func(hour, minute int) time.Time { return time.Date(2026, 12, 12, hour, minute, 0, 0, time.UTC) }
	n.say(at(11, 20), checklist.TurnOn{Angle: degrees(9.7)})
	n.say(at(11, 35), checklist.StartSubs{})
	n.say(at(14, 23), checklist.StopSubs{})
	n.say(at(14, 25), checklist.ChooseTarget{Target: checklist.Target{Name: "M 42", Star: k.Targets[1].Star}})

	m := n.at(at(14, 26))
	require.True(t, m.Now.Before(m.Window.From), "its turn has not begun")
	require.True(t, m.Call.By.Before(m.Window.To.Add(-30*time.Minute)), "the stage does not last")
	a := n.advice(at(14, 26))
	assert.Equal(t, advice.Rewind, a.Do)
	assert.Equal(t, advice.ForHandOver, a.Why)

	n.say(at(14, 27), checklist.Rewound{To: *a.Angle})
	for now := at(14, 28); now.Before(at(14, 50)); now = now.Add(time.Minute) {
		do := n.advice(now).Do
		assert.NotContains(t, []advice.Do{advice.Rewind, advice.UsePause}, do, "once is enough: at %s", now)
	}
}
