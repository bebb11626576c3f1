package session_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
)

// Where a go-to ended is drawn from one light, the first: who has taken that back is not told it again by the next, and
// after another go-to it is measured anew.
func TestAGotoErrorThatIsTakenBackStaysSo(t *testing.T) {
	n := lived(t, t.TempDir(), nil)
	target := kit.Example().Targets[0]
	chosen := checklist.ChooseTarget{Target: checklist.Target{Name: target.Name, Star: target.Star}}
	lights := 0
	light := func() {
		n.now = n.now.Add(3 * time.Minute)
		began, exposure, middle := n.now.Add(-2*time.Minute).UnixNano(), 60.0, framing.Middle(target)
		n.second().do(n.says(checklist.SubArrived{Body: checklist.SubArrivedBody{Path: fmt.Sprintf("/subs/%d.fits", lights), Kind: "light",
			OursNs: &began, ExposureS: &exposure, Placed: &checklist.PlacedBody{Near: target.Name, RADeg: middle.RA.Degrees(),
				DecDeg: middle.Dec.Degrees() + 0.1, CameraAngleDeg: 40, AngleErrorDeg: 0.003, ScaleArcsec: 1.5}}}))
		lights++
	}
	n.do(n.says(chosen))
	light()
	landed, ok := n.session.Status.Log.Landed()
	require.True(t, ok)
	assert.Equal(t, "/subs/0.fits", landed.Light)
	n.do(n.says(checklist.Undo{}))
	light()
	_, ok = n.session.Status.Log.Landed()
	assert.False(t, ok, "it was taken back")

	n.do(n.says(checklist.ChooseTarget{Target: checklist.Target{Name: "NGC 1365", Star: target.Star}}))
	n.second().do(n.says(chosen))
	light()
	landed, ok = n.session.Status.Log.Landed()
	require.True(t, ok)
	assert.Equal(t, "/subs/2.fits", landed.Light)
}
