package checklist_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/cables"
	"duskhand/plan/kit"
	"duskhand/sky"
)

func TestCablesThroughANight(t *testing.T) {
	k := kit.Example()
	k.Mount.Cables.Straight = 90 * sky.Degree
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	courseOf := func(name string, star sky.Star) *plan.Course {
		return night.Course(kit.Target{Name: name, Star: star}, k.Axis)
	}
	south, north := courseOf("NGC 2070", tarantula.Star), courseOf("M 42", orion.Star)

	s := begin(t)
	wound := s.night.WoundAt(k, courseOf, minute(0))
	assert.Equal(t, checklist.Wound{Azimuth: 90 * sky.Degree, Sure: true}, wound, "nobody said anything")
	s.say(10, checklist.CablesStraight{}).say(20, checklist.ChooseTarget{Target: tarantula}).say(200, checklist.ChooseTarget{Target: orion})

	at := 90*sky.Degree + (south.AzimuthAboutAxis(minute(20)) - 90*sky.Degree).Signed()
	wound = s.night.WoundAt(k, courseOf, minute(20))
	assert.InDelta(t, at.Degrees(), wound.Azimuth.Degrees(), 1e-6)
	assert.True(t, wound.Said)
	at += south.AzimuthTurn(plan.Span{From: minute(20), To: minute(200)}).By
	at += (north.AzimuthAboutAxis(minute(200)) - at).Signed()
	at += north.AzimuthTurn(plan.Span{From: minute(200), To: minute(230)}).By
	wound = s.night.WoundAt(k, courseOf, minute(230))
	assert.InDelta(t, at.Degrees(), wound.Azimuth.Degrees(), 1e-6)
	assert.InDelta(t, at.Degrees()-90, wound.Off.Degrees(), 1e-6)

	back := s.night.NextWay(k, courseOf, cables.Leg{Course: south, Span: plan.Span{From: minute(230), To: minute(240)}})
	assert.InDelta(t, at.Degrees(), back.Before.Degrees(), 1e-6)
	assert.InDelta(t, south.AzimuthAboutAxis(minute(240)).Degrees(), back.Left.Wrapped().Degrees(), 1e-6)

	s.say(250, checklist.CablesStraight{}) // unwound, and back to the target
	wound = s.night.WoundAt(k, courseOf, minute(251))
	assert.Less(t, (wound.Azimuth - 90*sky.Degree).Abs(), 180*sky.Degree)
	assert.InDelta(t, north.AzimuthAboutAxis(minute(251)).Degrees(), wound.Azimuth.Wrapped().Degrees(), 1e-6)
}
