package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/supplies"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

func TestTheDiskInWords(t *testing.T) {
	on := func(subs int, free int64) say.Told {
		room := supplies.DataOf(kit.Example().Camera, subs).Against(free)
		return say.Room(facts.Supplies{Data: room.Data, Room: &room})
	}
	assert.Equal(t, say.Told{Text: "The 240 subs planned take 12.5 GB, 52.2 MB each; of 80.0 GB free 67.5 GB stay free."}, on(240, 80e9))
	assert.Equal(t, say.Told{Text: "The 240 subs planned take 12.5 GB, 52.2 MB each, and only 8.0 GB are free: the disk is full after 153 of them; make room for 4.5 GB more.", Urgent: true}, on(240, 8e9))
	assert.Equal(t, say.Told{Text: "The one sub planned takes 52.2 MB; of 2.00 TB free 2.00 TB stay free."}, on(1, 2e12))
	assert.Equal(t, say.Told{Text: "No more subs are planned."}, say.Room(facts.Supplies{}))
}

func TestTheAirInWords(t *testing.T) {
	for _, c := range []struct {
		name      string
		celsius   float64
		margin    float64
		says      string
		isUrgency bool
	}{
		{"far from it", 15, 10, "10.0 K below the air: the glass stays dry until the air has cooled to 8.0 °C.", false},
		{"just outside", 15, 3.1, "until the air has cooled to 14.9 °C", false},
		{"just inside", 15, 2.9, "only 2.9 K below the air", true},
		{"saturated but for the hygrometer", 15, 0.3, "The air is saturated at 15.0 °C: everything grows wet with dew", true},
		{"frost", -5, 2, "The dew point is −7.0 °C, only 2.0 K below the air: glass under a clear sky is colder than the air, and frost is near; heat it now.", true},
	} {
		d, err := supplies.DewIn(supplies.Air{TemperatureC: c.celsius, HumidityPercent: supplies.HumidityPercent(c.celsius, c.celsius-c.margin)})
		require.NoError(t, err, c.name)
		told := say.Supplies(facts.Supplies{Dew: d, DewOK: true})
		i := 0
		for i < len(told)-1 && !assert.ObjectsAreEqual(c.isUrgency, told[i].Urgent) {
			i++
		}
		assert.Contains(t, told[i].Text, c.says, c.name)
		assert.Equal(t, c.isUrgency, told[i].Urgent, c.name)
	}
}

func TestTheBatteryInWords(t *testing.T) {
	evening := time.Date(2026, 12, 5, 10, 0, 0, 0, time.UTC)
	through := func(p kit.Power) say.Told {
		return say.Power(facts.Supplies{Power: supplies.PowerThrough(p, plan.Span{From: evening, To: evening.Add(10 * time.Hour)}), Lasts: true, Zone: time.UTC})
	}
	mount, heaters := kit.Load{Name: "mount", Watts: 6}, kit.Load{Name: "heaters", Watts: 20}
	assert.Equal(t, say.Told{Text: "The night takes 60 Wh of the 100 usable: 40 % are left at 20:00 UTC."}, through(kit.Power{BatteryWh: 200, UsableShare: 0.5, Loads: []kit.Load{mount}}))
	assert.Equal(t, say.Told{Text: "The battery is empty at 13:50 UTC: the night takes 260 Wh and 100 are usable. The most goes to heaters, 200 Wh.", Urgent: true}, // 3.846 h
		through(kit.Power{BatteryWh: 200, UsableShare: 0.5, Loads: []kit.Load{mount, heaters}}))
	assert.Equal(t, say.Told{Text: "Give power.battery_wh, power.usable_share, power.load in the kit to know whether the battery lasts."}, through(kit.Power{}))
	assert.Equal(t, say.Told{Text: "The night takes 60 Wh; give power.usable_share in the kit to know whether the battery lasts."}, through(kit.Power{BatteryWh: 200, Loads: []kit.Load{mount}}))
}
