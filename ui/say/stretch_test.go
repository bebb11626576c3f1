package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
	"duskhand/sky"
	"duskhand/ui/say"
)

func TestATurnOfADividedNightInWords(t *testing.T) {
	k := kit.Example()
	k.Site.Zone = time.UTC
	from, to := time.Date(2026, 12, 5, 11, 10, 0, 0, time.UTC), time.Date(2026, 12, 5, 15, 10, 0, 0, time.UTC)
	st := share.Stretch{Span: plan.Span{From: from, To: to}, Target: kit.Target{Name: "NGC 2070"}, Course: &plan.Course{Kit: k}, Exposed: 3 * time.Hour, Wanted: 0.5, Got: 0.52}
	for _, c := range []struct {
		ends    share.Ending
		rewinds int
		want    string
	}{
		{share.Ending{Why: share.HandedOver}, 1, "11:10 to 15:10 NGC 2070: 3 h 00 min of exposure, 1 rewind, 52 % for 50 % wanted; handed over so that the others get their share"},
		{share.Ending{Why: share.NightOver}, 0, "11:10 to 15:10 NGC 2070: 3 h 00 min of exposure, no rewind, 52 % for 50 % wanted; the night ends"},
		{share.Ending{Why: share.Complete}, 2, "11:10 to 15:10 NGC 2070: 3 h 00 min of exposure, 2 rewinds, 52 % for 50 % wanted; complete"},
		{share.Ending{Why: share.Closes, Bound: plan.ByKeyhole, At: to}, 0, "11:10 to 15:10 NGC 2070: 3 h 00 min of exposure, no rewind, 52 % for 50 % wanted; keyhole from 15:10 on"},
		{share.Ending{Why: share.Obstructed, Obstruction: "shed", At: to}, 0, "11:10 to 15:10 NGC 2070: 3 h 00 min of exposure, no rewind, 52 % for 50 % wanted; behind the shed from 15:10 on"},
	} {
		st.Ends, st.Rewinds = c.ends, c.rewinds
		assert.Equal(t, c.want, say.Stretch(st))
	}
	assert.Equal(t, "not above 25° and clear of the horizon in what is left of the dark", say.NoTurn(share.LeftOut{Why: share.NotUp}, 25*sky.Degree))
}
