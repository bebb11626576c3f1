package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan"
	"duskhand/ui/say"
)

// What gains most for the least trouble is said, and nothing that gains too little to be told.
func TestWhatABetterKnownAxisIsWorthIsSaid(t *testing.T) {
	minutes := func(m int) time.Duration { return time.Duration(m) * time.Minute }
	for name, c := range map[string]struct {
		price plan.Price
		want  string
	}{
		"a stage that stands tells as much as stars": {plan.Price{Exact: minutes(14), Sights: minutes(13), Reading: minutes(4), Standing: minutes(12)},
			"leave the stage still for ten minutes before dark and let the lights come: worth 12 min of subs"},
		"stars tell far more":  {plan.Price{Exact: minutes(200), Sights: minutes(190), Standing: minutes(12)}, "two stars sighted are worth 3 h 10 min"},
		"a reading is as good": {plan.Price{Exact: minutes(30), Sights: minutes(30), Reading: minutes(29), Standing: minutes(29)}, "a reading of the scale is worth 29 min"},
	} {
		ways, ok := say.PriceWords(c.price)
		assert.True(t, ok, name)
		assert.Equal(t, c.want, ways[0], name)
	}
	_, ok := say.PriceWords(plan.Price{Exact: time.Second, Standing: time.Second})
	assert.False(t, ok)
}
