package checklist_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/checklist/journal"
)

// FuzzNight holds that a night is read whatever its events contain: a journal may come from a newer version, or from
// one with a fault. Events one by one add up to what all together do.
func FuzzNight(f *testing.F) {
	for _, e := range evening(f).events {
		f.Add(e.Kind, []byte(e.Body), int64(time.Minute))
	}
	f.Add(checklist.KindClockJumped, []byte(`{"from_unix_ns":0,"to_unix_ns":-3600000000000}`), int64(0))
	f.Add(checklist.KindUndone, []byte(`{"ordinal":3}`), int64(-1))
	f.Fuzz(func(t *testing.T, kind string, data []byte, after int64) {
		if !json.Valid(data) {
			return // a body that is no JSON doesn't come out of the journal
		}
		s := evening(t)
		last := s.events[len(s.events)-1]
		n := s.night
		events := s.events
		for i := range int64(3) {
			e := journal.Event{Ordinal: last.Ordinal + 1 + i, Night: last.Night, Kind: kind, Body: data}
			e.At, e.Written = last.At.Add(time.Duration(i*after)), last.Written.Add(time.Duration(i*after))
			n, events = n.Next(e), append(events[:len(events):len(events)], e)
		}
		require.Equal(t, checklist.Fold(events), n)
		steps := checklist.Steps()
		steps.State(n)
		steps.Next(n)
	})
}
