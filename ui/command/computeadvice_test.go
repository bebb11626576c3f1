package command_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui/command"
)

// said is an event of a request.
type said struct {
	UTC string `json:"utc"`
	Say string `json:"say"`
}

// advise asks what is to be done in the example's night.
func advise(t *testing.T, now time.Time, events []said) (answer map[string]any) {
	t.Helper()
	request, err := json.Marshal(map[string]any{"ask": "advice", "kit_toml": string(kit.ExampleTOML()), "utc": now.Format(time.RFC3339), "events": events})
	require.NoError(t, err)
	line, ok := command.AnswerTo(request)
	require.NoError(t, json.Unmarshal(line, &answer))
	require.Equal(t, ok, answer["error"] == nil, string(line))
	return answer
}

// A step is about its star, and subs that go on about their filter.
func TestAnAdviceNamesItsStarAndItsFilter(t *testing.T) {
	now := time.Date(2026, 12, 5, 10, 30, 0, 0, time.UTC)
	events := []said{}
	named := map[string]any{}
	for range 60 {
		answer := advise(t, now, events)
		if answer["step"] != nil {
			named[answer["step"].(string)] = answer["star"]
		}
		if answer["offer"] == nil {
			break
		}
		events = append(events, said{now.Format(time.RFC3339), answer["offer"].(string)})
		now = now.Add(time.Second)
	}
	for _, step := range []string{"first-star", "second-star", "check-star", "focus-main"} {
		assert.NotEmpty(t, named[step], step)
	}
	assert.NotEqual(t, named["first-star"], named["second-star"])
	assert.Nil(t, named["caps-off"])
	now = time.Date(2026, 12, 5, 11, 8, 0, 0, time.UTC)
	answer := advise(t, now.Add(2*time.Minute), []said{{now.Format(time.RFC3339), "derotator-on -16"}, {now.Add(time.Minute).Format(time.RFC3339), "subs-started L"}})
	assert.Equal(t, "wait", answer["do"])
	assert.Equal(t, "L", answer["filter"])
	assert.NotEmpty(t, answer["target"])
}

// Whoever says what is offered, as soon as it is, goes from one run to the next: each offer is words that compute takes.
func TestOffersLeadFromOneRunToTheNext(t *testing.T) {
	now := time.Date(2026, 12, 5, 11, 8, 0, 0, time.UTC)
	events := []said{{now.Format(time.RFC3339), "derotator-on -16"}}
	var kinds []string
	for range 40 {
		answer := advise(t, now, events)
		if kinds = append(kinds, answer["do"].(string)); len(kinds) > 1 && kinds[len(kinds)-1] == kinds[len(kinds)-2] {
			kinds = kinds[:len(kinds)-1]
		}
		if answer["do"] == "wait" || answer["do"] == "finish-sub" {
			require.Nil(t, answer["offer"], "waiting offers nothing")
			by, err := time.Parse(time.RFC3339, answer["by"].(string))
			require.NoError(t, err)
			now = by.Add(time.Second)
			if now.After(time.Date(2026, 12, 5, 14, 0, 0, 0, time.UTC)) {
				break
			}
			continue
		}
		require.NotNil(t, answer["offer"], answer["do"])
		events = append(events, said{now.Format(time.RFC3339), answer["offer"].(string)})
		now = now.Add(time.Minute)
	}
	assert.Equal(t, "subs-on wait rewind subs-on wait", strings.Join(kinds, " "))
}

func TestEventsThatMakeNoSenseAreNamedByTheirIndex(t *testing.T) {
	at := func(minute int) string { return fmt.Sprintf("2026-12-05T11:%02d:00Z", minute) }
	now := time.Date(2026, 12, 5, 11, 30, 0, 0, time.UTC)
	for name, c := range map[string]struct {
		events []said
		want   string
	}{
		"subs twice":          {[]said{{at(8), "derotator-on -16"}, {at(9), "subs-started"}, {at(10), "subs-started"}}, "events[2]: subs are being taken already"},
		"after the instant":   {[]said{{at(40), "derotator-on"}}, "events[0]: it is at"},
		"not oldest first":    {[]said{{at(9), "derotator-on"}, {at(8), "derotator-off"}}, "events[1]: it is before the event before it"},
		"none of our words":   {[]said{{at(8), "dance"}}, `events[0]: "dance" can't be said`},
		"of another night":    {[]said{{"2026-12-04T11:00:00Z", "derotator-on"}}, "events[0]: it is of the night of 2026-12-04"},
		"a name of two words": {[]said{{at(8), "target NGC 99999"}}, "events[0]:"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Contains(t, advise(t, now, c.events)["error"], c.want)
		})
	}
	assert.Equal(t, "NGC 1365", advise(t, now, []said{{at(8), "target NGC 1365"}})["target"], "names of several words are understood")
}
