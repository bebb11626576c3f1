package command

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

func TestTurnsAreSaidInQuarters(t *testing.T) {
	for degrees, want := range map[float64]string{
		0: "hardly", 40: "hardly", 50: "¼ turn clockwise", -95: "¼ turn anticlockwise", 180: "½ turn clockwise", -270: "¾ turn anticlockwise",
		355: "1 turn clockwise", 450: "1¼ turns clockwise", -720: "2 turns anticlockwise",
	} {
		assert.Equal(t, want, turnsText(sky.Angle(degrees)*sky.Degree))
	}
}

func TestThePlanSaysWhichWayRoundAndWhereTheCablesEnd(t *testing.T) {
	p := exampleNight(func(k *kit.Kit) { k.Mount.Cables.Straight = 180 * sky.Degree })
	all := cablesJSON(p)
	require.Len(t, all, 3, "one window of NGC 2070, two of NGC 1365")
	for i, c := range all {
		assert.Equal(t, c.Arrived > c.Before, c.Clockwise, i)
		assert.InDelta(t, (c.Left-180)/360, c.Turns, 0.006, i)
	}
	for _, run := range p.targets[0].runs.Runs {
		for _, a := range []sky.Angle{run.StartAngle, run.EndAngle} {
			assert.GreaterOrEqual(t, a.Degrees(), all[0].DerotatorLeast-0.05)
			assert.LessOrEqual(t, a.Degrees(), all[0].DerotatorMost+0.05)
		}
	}
	assert.GreaterOrEqual(t, all[0].DerotatorLeast, p.night.Kit.Derotator.Min.Degrees()-0.05)
	assert.LessOrEqual(t, all[0].DerotatorMost, p.night.Kit.Derotator.Max.Degrees()+0.05)
	assert.InDelta(t, 180, all[0].Before, 0)
	assert.InDelta(t, 180, all[1].Before, 0, "each target from straight cables")
	assert.InDelta(t, all[1].Left, all[2].Before, 0)
	azimuth := p.targets[0].course.AzimuthAboutAxis(p.targets[0].runs.Runs[0].From)
	assert.InDelta(t, azimuth.Degrees(), all[0].Arrived, 0.05)

	p = exampleNight(func(k *kit.Kit) { // from north it comes clockwise, and goes on clockwise about the pole
		end := sky.Angle(all[0].Arrived+all[0].Left) / 2 * sky.Degree
		k.Mount.Cables.To = &end
	})
	var out bytes.Buffer
	local := words.WallOf(p.night.Span.From, p.night.Span.To, p.night.Kit.Site.Zone)
	writeCables(&out, p, local)
	first := cablesJSON(p)[0]
	require.NotNil(t, first.Passes)
	assert.True(t, first.LongWay)
	assert.Contains(t, out.String(), "go the long way round, ")
	assert.Contains(t, out.String(), "azimuth 0°")
}
