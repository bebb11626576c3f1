package facts_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
)

var exampleDate = plan.Date{Year: 2026, Month: time.December, Day: 5}

func sharedKit() kit.Kit {
	k := kit.Example()
	for i := range k.Targets {
		k.Targets[i].Share = 1
	}
	return k
}

// By the kit's shares the night is divided from the beginning, and the present target is the one whose turn it
// is; its windows end where the next one's turn begins.
func TestKitsSharesDivideTheNight(t *testing.T) {
	k := sharedKit()
	night := plan.NewNight(k, exampleDate)
	tonight := facts.For(k, exampleDate, checklist.Night{}, night.Dark[0].From, nil)
	shared := tonight.Shared()
	require.Len(t, shared, 2)
	assert.Equal(t, shared[0].Target.Name, tonight.Target.Name)
	last := tonight.Windows[len(tonight.Windows)-1]
	assert.False(t, last.To.After(shared[1].From))
	assert.Equal(t, plan.ByTurn, last.ClosesBefore)
	assert.Equal(t, "hand-over", last.ClosesBefore.Text())

	later := facts.For(k, exampleDate, checklist.Night{}, shared[1].Ready.Add(time.Minute), tonight)
	assert.Equal(t, shared[1].Target.Name, later.Target.Name)
	assert.InDelta(t, tonight.PlannedExposed().Hours(), tonight.SubsLeft(night.Dark[0].From).Hours(), 0.2, "at dusk all that is planned is still to come")
	names := map[string]bool{}
	for _, row := range tonight.Rows() {
		names[row.Target] = true
	}
	assert.Len(t, names, 2, "the table of runs has both")
}

// An event divides the rest from its instant on, by weights, whatever the kit says; one without parts undoes it.
func TestDivisionSaidInTheNight(t *testing.T) {
	k := kit.Example()
	at := dusk.Add(2 * time.Hour)
	log := checklist.Night{Divided: &checklist.Division{At: at, Parts: []checklist.Part{
		{Target: k.Targets[0].Name, Weight: 3, Taken: map[string]int{"L": 30}}, {Target: k.Targets[1].Name, Weight: 1}}}}
	tonight := facts.For(k, exampleDate, log, at, nil)
	shared := tonight.Shared()
	require.Len(t, shared, 2)
	for _, s := range shared {
		assert.False(t, s.From.Before(at))
		if s.Target.Name == k.Targets[0].Name {
			assert.InDelta(t, 0.75, s.Got, 0.1, "three parts of four; what the keyhole leaves and the grid of five minutes")
		}
	}
	shares := sharedKit()
	log.Divided = &checklist.Division{At: at}
	assert.Nil(t, facts.For(shares, exampleDate, log, at, nil).Shared())
}

func TestHandOver(t *testing.T) {
	k := sharedKit()
	tonight := facts.For(k, exampleDate, checklist.Night{}, dusk, nil)
	first, second := tonight.Shared()[0], tonight.Shared()[1]
	log := checklist.Night{Target: &checklist.Target{Name: first.Target.Name, Star: first.Target.Star}}
	during := facts.For(k, exampleDate, log, second.From.Add(-time.Hour), nil).At(second.From.Add(-time.Hour))
	_, ok := during.HandOver()
	assert.False(t, ok)
	next, ok := during.Following()
	require.True(t, ok)
	assert.Equal(t, second.Target.Name, next.Target.Name)
	after := facts.For(k, exampleDate, log, second.From.Add(time.Minute), nil).At(second.From.Add(time.Minute))
	next, ok = after.HandOver()
	require.True(t, ok)
	assert.Equal(t, second.Target.Name, next.Target.Name)
	assert.True(t, after.IsOver(), "the first target's turn is over though it is still up")
	assert.Equal(t, advice.HandOver, after.Advice().Do)
	assert.Equal(t, second.Target.Name, after.Advice().Target)
}
