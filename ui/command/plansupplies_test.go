package command

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui/facts"
)

// The battery's loads are the example's: 37 W through the night and 14 W for 5 h.
func TestThePlanSaysWhetherTheNightLasts(t *testing.T) {
	p := exampleNight(func(*kit.Kit) {})
	subs := 0
	for _, run := range p.targets[0].runs.Runs {
		subs += len(run.Subs)
	}
	s := suppliesOf(p)
	assert.Equal(t, subs, s.Data.Subs, "the first target's, which are the most")
	assert.Equal(t, int64(subs)*s.Data.Each, s.Data.Bytes)
	require.NotNil(t, s.Power)
	night := p.night.Twilight.Sunrise.At.Sub(p.night.Twilight.Sunset.At).Hours()
	assert.InDelta(t, 37*night+14*5, s.Power.Needed, 0.1)
	assert.Nil(t, s.Power.Empty)
	assert.Nil(t, s.DiskFull, "what is free is not known")
	require.NotNil(t, s.Refocus)
	var out bytes.Buffer
	writeSupplies(&out, p)
	assert.Contains(t, out.String(), "The night takes ")
	assert.Contains(t, out.String(), "Give watch.folders in the kit")

	small := exampleNight(func(k *kit.Kit) { k.Power.BatteryWh = 300 })
	require.NotNil(t, suppliesOf(small).Power.Empty)
	assert.Less(t, *suppliesOf(small).Power.Empty, instant(small.night.Twilight.Sunrise.At))
	out.Reset()
	writeSupplies(&out, small)
	assert.Contains(t, out.String(), "The battery is empty at ")
}

func TestTheDiskIsFullWithTheFirstSubThatFindsNoRoom(t *testing.T) {
	p := exampleNight(func(*kit.Kit) {})
	subs := mostSubs(p)
	room := facts.SuppliesFor(p.night.Kit, p.night, len(subs), facts.Disk{FreeBytes: 10*suppliesOf(p).Data.Each + 5, OK: true}).Room
	require.NotNil(t, room)
	full := room.FullAt(subs)
	require.True(t, full.OK)
	assert.Equal(t, subs[10].Exposure.From, full.At, "ten find room")
	assert.False(t, room.FullAt(subs[:10]).OK)
}
