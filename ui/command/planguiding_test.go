package command

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky/words"
)

// exampleNight is the example's plan with a change of its kit.
func exampleNight(change func(*kit.Kit)) planned {
	k := kit.Example()
	change(&k)
	p := planned{night: plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})}
	for _, target := range k.Targets {
		course := p.night.Course(target, k.Axis)
		p.targets = append(p.targets, planTarget(p.night, course, target))
	}
	return p
}

func TestAPlanSaysWhichRunsWantACalibration(t *testing.T) {
	p := exampleNight(func(k *kit.Kit) { k.Guide.Corrections = kit.SkyCorrections })
	all := calibrationsJSON(p)
	runs := p.targets[0].runs.Runs
	var first []calibrationJSON
	for _, c := range all {
		assert.Equal(t, "sky", c.Corrections)
		if c.Target == p.targets[0].target.Name {
			first = append(first, c)
		}
	}
	require.GreaterOrEqual(t, len(first), 3)
	for _, c := range first {
		assert.Equal(t, instant(runs[c.Run-1].From), c.At, "at the start of each run that a rewind has turned too far for")
	}
	assert.Equal(t, "holds", first[0].Instead)
	assert.Equal(t, "calibrate-again", first[1].Instead)

	var out bytes.Buffer
	local := words.WallOf(p.night.Span.From, p.night.Span.To, p.night.Kit.Site.Zone)
	writeGuiding(&out, p, local)
	assert.NotContains(t, out.String(), "guide.corrections")
	assert.Contains(t, out.String(), local.MinuteFrom(runs[1].From)+" at ")
}

func TestAPlanSaysAllKindsWhenTheKitIsSilent(t *testing.T) {
	p := exampleNight(func(*kit.Kit) {})
	var out bytes.Buffer
	writeGuiding(&out, p, words.WallOf(p.night.Span.From, p.night.Span.To, p.night.Kit.Site.Zone))
	text := out.String()
	assert.Contains(t, text, "guide.corrections")
	for _, kind := range kit.AllCorrections() {
		assert.Equal(t, len(p.targets), strings.Count(text, "  "+string(kind)+" "), kind)
	}
	p.targets = nil
	out.Reset()
	writeGuiding(&out, p, words.WallOf(p.night.Span.From, p.night.Span.To, p.night.Kit.Site.Zone))
	assert.Empty(t, out.String())
}
