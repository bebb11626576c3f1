package record_test

import (
	"bytes"
	"encoding/csv"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func TestTheRecordSaysWhereGotosEnded(t *testing.T) {
	s := (&story{t: t}).say(0, checklist.ChooseTarget{Target: checklist.Target{Name: "NGC 2070"}}).
		say(3, checklist.MeasureGoto{Target: "NGC 2070", Off: 12.04 * sky.Arcminute, Azimuth: -18 * sky.Arcminute, Altitude: 6 * sky.Arcminute, Light: "/subs/\x1b[31ma.fits"})
	night := of(kit.Example(), s.night()).Nights[0]
	require.Len(t, night.Gotos, 1)
	m := night.Mentions[len(night.Mentions)-1]
	assert.Equal(t, "go-to", m.Kind)
	assert.Equal(t, "NGC 2070: ended 12.0′ off, −18.0′ in azimuth and 6.0′ in altitude by the mount's axes; the first light since, "+`\x1b[31ma.fits`, m.Text)

	s.say(4, checklist.TurnOn{Angle: deg(-16)}, checklist.StartSubs{}).say(30, checklist.StopSubs{})
	var table bytes.Buffer
	require.NoError(t, of(kit.Example(), s.night()).CSV(&table))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	column := slices.Index(rows[0], "goto_off_deg")
	require.Positive(t, column)
	assert.Equal(t, "0.201", rows[1][column])
}
