package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/say"
)

func TestTwoGapsThatMeetShareTheirMinute(t *testing.T) {
	// 16 minutes and 40 seconds past five: rounded down it is 05:16, rounded up 05:17.
	taken := time.Date(2026, 12, 13, 4, 33, 0, 0, time.UTC)
	meet := time.Date(2026, 12, 13, 5, 16, 40, 0, time.UTC)
	end := time.Date(2026, 12, 13, 6, 50, 20, 0, time.UTC)
	all := []plan.Idle{{Span: plan.Span{From: taken, To: meet}}, {Span: plan.Span{From: meet, To: end}}}
	wall := words.WallOf(taken, end, time.UTC)

	_, before := say.EdgesOf(all[0].Span, all, nil, wall)
	after, last := say.EdgesOf(all[1].Span, all, nil, wall)

	assert.Equal(t, "05:16", before)
	assert.Equal(t, "05:16", after)
	assert.Equal(t, "06:51", last, "what begins then begins in the minute that follows")
}
