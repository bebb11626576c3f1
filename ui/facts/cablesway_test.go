package facts_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// goneTo is the example's first target gone to at dusk by a mount whose cables hang straight so far, clockwise, from
// where it stands then, and reach so far either way.
func goneTo(t *testing.T, k kit.Kit, off, reach sky.Angle) *night {
	n := &night{t: t, kit: k}
	first := k.Targets[0]
	gone := dusk.Add(-time.Hour)
	course := plan.NewNight(k, exampleDate).Course(first, k.Axis)
	straight := course.AzimuthAboutAxis(gone) - off
	from, to := straight-reach, straight+reach
	n.kit.Mount.Cables = kit.Cables{Straight: straight, From: &from, To: &to}
	n.at(gone, checklist.ChooseTarget{Target: checklist.Target{Name: first.Name, Star: first.Star}})
	n.at(dusk, checklist.TurnOn{Angle: degrees(-16)})
	return n
}

// A goto of half a turn is made either way round, and nobody knows which.
func TestAWayRoundThatIsNotKnownIsSaidInTheNightWhereATurnMoreMatters(t *testing.T) {
	r := goneTo(t, kit.Example(), 180*sky.Degree, 270*sky.Degree).at(dusk.Add(time.Minute), checklist.StartSubs{})
	a := alert(t, r, nil, facts.CablesEnd)
	assert.Equal(t, advice.Warning, a.Level)
	assert.Contains(t, a.Words, "which way round the mount has gone is not known")
	assert.Contains(t, say.Unwind(r), "is not known")

	long := goneTo(t, kit.Example(), 180*sky.Degree, 1000*sky.Degree).at(dusk.Add(time.Minute), checklist.StartSubs{})
	assert.Equal(t, advice.Quiet, alert(t, long, nil, facts.CablesEnd).Level, "where the cables reach a turn further it does not matter")
	sure := goneTo(t, kit.Example(), 90*sky.Degree, 270*sky.Degree).at(dusk.Add(time.Minute), checklist.StartSubs{})
	assert.Equal(t, advice.Quiet, alert(t, sure, nil, facts.CablesEnd).Level)
}

func TestTheHandOverSaysTheWayRound(t *testing.T) {
	handOver := func(off, reach sky.Angle) (r facts.Run, says string) {
		n := goneTo(t, sharedKit(), off, reach)
		shared := n.at(dusk).Shared()
		require.Len(t, shared, 2)
		r = n.at(shared[1].From.Add(time.Second))
		due, ok := r.HandOver()
		require.True(t, ok)
		ways := say.Voice{Run: r, Advice: advice.Advice{Do: advice.HandOver, Target: due.Target.Name}}.ToDo()
		require.True(t, strings.HasPrefix(ways[0], strings.TrimSuffix(ways[1], "; say so.")), "a small window says the way round too: %s", ways[1])
		return r, ways[0]
	}
	r, says := handOver(0, 1000*sky.Degree)
	ahead, ok := r.CablesAhead()
	require.True(t, ok)
	require.NotNil(t, ahead.Next, "it is told at the hand-over itself, too")
	way, other := "clockwise", "anticlockwise"
	if !ahead.Next.Clockwise() {
		way, other = other, way
	}
	assert.Contains(t, says, "Go "+way+" to "+ahead.Target+", centre a star")

	// The cables end between where the telescope stands and where it goes the shortest way; the other way round is free.
	turned := ahead.Next.Arrived - ahead.Next.Before
	n := goneTo(t, sharedKit(), 0, 0)
	end := ahead.Next.Before + turned/2
	far := ahead.Next.Before + 1000*sky.Degree
	back := ahead.Next.Before - 1000*sky.Degree
	n.kit.Mount.Cables.From, n.kit.Mount.Cables.To = &back, &end
	if turned < 0 {
		n.kit.Mount.Cables.From, n.kit.Mount.Cables.To = &end, &far
	}
	r = n.at(r.Now)
	due, _ := r.HandOver()
	says = say.Voice{Run: r, Advice: advice.Advice{Do: advice.HandOver, Target: due.Target.Name}}.ToDo()[0]
	assert.Contains(t, says, "Go the long way round, "+other+", to "+due.Target.Name+", centre a star")
	a := alert(t, r, nil, facts.CablesEnd)
	assert.Equal(t, advice.Warning, a.Level)
	assert.Contains(t, a.Words, "to "+due.Target.Name+" go the long way round, "+other)
}

func TestCablesWoundByMoreThanHalfATurnAreUnwoundBeforeParking(t *testing.T) {
	k := kit.Example()
	n := goneTo(t, k, 170*sky.Degree, 1000*sky.Degree)
	r := n.at(dusk.Add(5 * time.Hour))
	w, ok := r.Winding()
	require.True(t, ok)
	require.Greater(t, w.Off.Abs(), 180*sky.Degree, "%v", w)
	words := say.Unwind(r)
	assert.Regexp(t, `^The mount's cables are wound 0\.[5-9] turns (anti)?clockwise: turn it back (anti)?clockwise before you park it\.$`, words)
	stow := say.Voice{Run: r, Advice: advice.Advice{Do: advice.Stow, Offer: checklist.TurnOff{}}}.ToDo()
	assert.Contains(t, stow[0], words)
	assert.Empty(t, say.Unwind(goneTo(t, k, 20*sky.Degree, 1000*sky.Degree).at(dusk)), "the shortest way to where it parks is straight enough")
	n.kit.Mount.Cables.From, n.kit.Mount.Cables.To = nil, nil
	assert.Empty(t, say.Unwind(n.at(r.Now)), "nobody has said where they hang straight")
}
