package ui_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui"
)

// NGC 1365 passes the keyhole: its windows close for it, and the axis as believed would leave it open for longer.
func TestNightExplainsTheGaps(t *testing.T) {
	s := &session{t: t, now: time.Date(2026, 12, 5, 10, 40, 0, 0, time.UTC)}
	startWith(s, 120, 40, func(c *ui.Config) {
		c.Kit.Example, c.Kit.Targets, c.JournalPath = false, c.Kit.Targets[1:], t.TempDir()+"/journal.db"
	})
	s.press("2").sees("NGC 1365", "gap", "tilt not known", "keyhole")
	found := false
	for _, i := range s.model.Status().Tonight.Idle() {
		found = found || i.Why == plan.TiltUnknown
		assert.GreaterOrEqual(t, i.Length(), 2*time.Minute)
	}
	require.True(t, found)
}

func TestNightSaysWhatKnowingTheAxisIsWorth(t *testing.T) {
	s := start(t, 80, 24, func(c *ui.Config) { c.Kit.Axis.Uncertainty = 4 * sky.Degree }).wait(time.Second)
	s.press("tab").sees("a reading of the scale is worth 10 min")
}

// The example's targets share a night: both ways stand on the chart, and are named.
func TestNightShowsBothTargetsOfADividedNight(t *testing.T) {
	s := start(t, 120, 40, func(c *ui.Config) { c.Kit.Example, c.JournalPath = false, t.TempDir()+"/journal.db" })
	s.press("2").seesNot("brightest ")
	require.Len(t, s.model.Status().Tonight.Curves(), 1)
	s.press("/", "enter").sees("brightest NGC 2070, then NGC 1365, then the Moon, 11 % lit")
	curves := s.model.Status().Tonight.Curves()
	require.Len(t, curves, 2)
	assert.NotEqual(t, curves[0].Heights, curves[1].Heights)
	for _, i := range s.model.Status().Tonight.Idle() {
		assert.NotEqual(t, plan.ByTurn, i.Bound, "the other target's turn is no gap")
	}
}

// The Moon of 16 December 2026 is at its first quarter and sets about midnight: lines before, luminance after
// (common practice).
func TestNightSaysTheOrderOfSubs(t *testing.T) {
	s := &session{t: t, now: time.Date(2026, 12, 16, 9, 30, 0, 0, time.UTC)}
	startWith(s, 120, 40, func(c *ui.Config) {
		c.Kit.Example, c.JournalPath = false, t.TempDir()+"/journal.db"
		c.Kit.Subs.Order, c.Kit.Subs.WorthAChange = kit.ByWorth, 2*time.Minute
		c.Kit.Subs.Filters = []kit.Filter{
			{Name: "L", Exposure: time.Minute, Count: 120, Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300},
			{Name: "Ha", Exposure: 5 * time.Minute, Count: 30, Kind: kit.LineFilter, CentreNM: 656.28, BandwidthNM: 3},
		}
	})
	s.press("2").sees("order: 30 Ha until moonset ", ", then 120 L")
}
