package plan_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// someNight is a random target through two to four filters at 52° north, on a random night with a random sky.
func someNight(seed uint64) (*plan.Course, plan.Start, plan.Sequence) {
	random := rand.New(rand.NewPCG(seed, 3))
	k := kit.Example()
	k.Site.Place.Latitude = 52 * sky.Degree
	k.Subs.FilterChange, k.Subs.DitherEvery = time.Duration(random.IntN(3)*10)*time.Second, random.IntN(4)
	k.Subs.Filters = nil
	for f := range 2 + random.IntN(3) {
		exposure, count := time.Duration(1+random.IntN(5))*time.Minute, 5+random.IntN(30)
		k.Subs.Filters = append(k.Subs.Filters, kit.Filter{Name: fmt.Sprint("F", f), Exposure: exposure, Count: count})
	}
	place := sky.J2000{RA: sky.Angle(360*random.Float64()) * sky.Degree, Dec: sky.Angle(20+40*random.Float64()) * sky.Degree}
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.Month(1 + random.IntN(12)), Day: 5})
	worth := someWorth(random, len(k.Subs.Filters))
	worth.From = night.Span.From.Add(5 * time.Hour)
	course := night.Course(kit.Target{Star: sky.Star{Place: place}}, k.Axis)
	return course, plan.Start{At: night.Span.From}, plan.NewSequence(k.Subs).By(worth)
}

// The runs end as soon as filters that take turns have all their subs. An order by worth, whose dithers and changes
// come elsewhere, may want a minute more: it gets it, and its last group is not cut short for a sub at the end. Of
// the first 600 such nights these three had that.
func TestTheRunsHaveRoomForTheOrder(t *testing.T) {
	for _, seed := range []uint64{212, 363, 598} {
		course, start, sequence := someNight(seed)
		turns := course.Schedule(start, sequence.By(nil))
		require.True(t, turns.After.Done(), "seed %d", seed)
		ordered := course.Schedule(start, sequence)
		assert.True(t, ordered.After.Done(), "seed %d: %v", seed, ordered.Order())
		assert.LessOrEqual(t, len(ordered.Rewinds), len(turns.Rewinds), "seed %d", seed)
		groups := map[string]int{}
		for _, p := range ordered.Order() {
			groups[p.Filter]++
		}
		for _, p := range ordered.Order() {
			assert.False(t, p.Count < course.Kit.Subs.InARow && groups[p.Filter] > 1, "seed %d: %v", seed, ordered.Order())
		}
	}
}
