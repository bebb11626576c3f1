package follow_test

import (
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist/journal"
	"duskhand/ui/follow"
)

type source struct {
	events []journal.Event
	err    error
}

func (s source) Since(ordinal int64) (after []journal.Event, err error) {
	for _, e := range s.events {
		if e.Ordinal > ordinal {
			after = append(after, e)
		}
	}
	return after, s.err
}

func ordinals(events []journal.Event) (all []int64) {
	for _, e := range events {
		all = append(all, e.Ordinal)
	}
	return all
}

func TestEventsOfOtherNightsAreReadOnceAndLeftOut(t *testing.T) {
	j := source{events: []journal.Event{{Ordinal: 1, Night: "a"}, {Ordinal: 2, Night: "b"}, {Ordinal: 3, Night: "a"}, {Ordinal: 4, Night: "b"}}}
	events, upTo, err := follow.Since(j, "a", 1)
	assert.NoError(t, err)
	assert.Equal(t, []int64{3}, ordinals(events))
	assert.Equal(t, int64(4), upTo)
	events, upTo, _ = follow.Since(j, "a", upTo)
	assert.Empty(t, events)
	assert.Equal(t, int64(4), upTo)

	j.err = errors.New("one is damaged")
	events, _, err = follow.Since(j, "b", 0)
	assert.Equal(t, []int64{2, 4}, ordinals(events), "what could be read counts")
	assert.ErrorIs(t, err, j.err)
}

func TestAScriptSaysWhatIsDue(t *testing.T) {
	at := time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)
	script := []journal.Event{{Ordinal: 1, At: at}, {Ordinal: 2, At: at}, {Ordinal: 3, At: at.Add(time.Second)}}
	for now, due := range map[time.Time]int{at.Add(-time.Nanosecond): 0, at: 2, at.Add(time.Second): 3} {
		said, rest := follow.Due(script, now)
		assert.Len(t, said, due, now)
		assert.Len(t, rest, 3-due, now)
	}
}

func TestFactsGrowOldEitherWay(t *testing.T) {
	at := time.Date(2026, 12, 5, 12, 0, 0, 0, time.UTC)
	assert.False(t, follow.Stale(at, at.Add(59*time.Second)))
	assert.True(t, follow.Stale(at, at.Add(time.Minute)))
	assert.True(t, follow.Stale(at, at.Add(-time.Minute)), "the clock was set back")
}
