package ui_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui"
)

// The price is found aside: a session whose axis is known to 4° only says what a better knowledge of it is worth, and
// the example, known to 1°, loses too little by it to speak of.
func TestRunSaysWhatKnowingTheAxisIsWorth(t *testing.T) {
	assert.NotContains(t, start(t, 120, 40, nil).text(), "worth")
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit.Axis.Uncertainty = 4 * sky.Degree }).wait(time.Second)
	assert.Contains(t, s.text(), "a reading of the scale is worth 10 min")
	assert.Positive(t, s.model.Status().Price.Exact)
}

// Once for each plan: the seconds after ask for nothing.
func TestThePriceIsAskedForOnceAPlan(t *testing.T) {
	s := start(t, 80, 24, func(c *ui.Config) { c.Kit.Axis.Uncertainty = 4 * sky.Degree }).wait(time.Second)
	found := s.model.Status().Price
	require.NotEqual(t, plan.Price{}, found)
	before := s.model.Status().Tonight.Pricing()
	s.wait(90 * time.Second)
	assert.Equal(t, before, s.model.Status().Tonight.Pricing())
	assert.Equal(t, found, s.model.Status().Price)
}

func TestRunSaysThatTheBatteryEndsInTheNextRun(t *testing.T) {
	assert.NotContains(t, start(t, 80, 24, nil).text(), "battery")
	s := start(t, 80, 24, func(c *ui.Config) { c.Kit.Power.BatteryWh *= 0.3 })
	assert.Contains(t, s.text(), "the battery is empty")
	s.resize(40, 12)
	assert.Contains(t, s.text(), "EXAMPLE", "the mark stays where there is little room")
}
