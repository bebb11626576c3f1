package say_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/say"
)

var moonlit = plan.Date{Year: 2026, Month: time.December, Day: 15} // 34 % lit, sets after midnight

// chosen is a target of the catalogue as the ranking of a night has it.
func chosen(t *testing.T, k kit.Kit, date plan.Date, name string, wish choose.Wish) choose.Choice {
	target, err := k.FindTarget(name)
	require.NoError(t, err)
	ranked, err := choose.NewNight(plan.NewNight(k, date), k.Axis, nil).Rank(context.Background(), []kit.Target{target}, wish, nil)
	require.NoError(t, err)
	require.Len(t, ranked, 1)
	return ranked[0]
}

func TestWhyATargetIsWorthWhatItIsInWords(t *testing.T) {
	k := kit.Example()
	goals := choose.Wish{Goals: map[string]choose.Goal{"orion nebula": {Taken: time.Hour, Left: 20 * time.Minute}, "ngc253": {Taken: 3 * time.Hour}}}
	for _, c := range []struct {
		name string
		wish choose.Wish
		want []string
	}{
		{"NGC 1365", choose.Wish{}, []string{"the keyhole takes"}},
		{"NGC 2070", choose.Wish{}, []string{"up ", " in the dark, ", "3 rewinds cost", "Moon 34 % lit", "sets 00:12", "highest ", "of the zenith", " fits a field of 2.8° × 1.9°"}},
		{"M 81", choose.Wish{}, []string{"never above 25° and clear of the horizon in the dark"}},
		{"NGC 3572", choose.Wish{}, []string{"no Moon"}},
		{"M 42", goals, []string{"20 min left of what is begun, less than the night gives"}},
		{"NGC 253", goals, []string{"complete: 3 h 00 min taken"}},
	} {
		said := say.Choice(chosen(t, k, moonlit, c.name, c.wish), k)
		for _, want := range c.want {
			assert.Contains(t, said, want, c.name)
		}
	}
	k.Site.Place.Latitude = 60 * sky.Degree
	assert.Contains(t, say.Choice(chosen(t, k, plan.Date{Year: 2026, Month: time.June, Day: 21}, "M 57", choose.Wish{}), k), "the Sun never sinks 18° below the horizon")
}

func TestWhatEndedATargetsNight(t *testing.T) {
	k := kit.Example()
	k.Site.Zone = time.UTC
	over := choose.Choice{NotUp: choose.NoMore, Over: plan.Window{Span: plan.Span{To: time.Date(2026, 12, 5, 15, 10, 0, 0, time.UTC)}}, Factors: []choose.Factor{{Of: choose.ByTurning, Share: 1, Told: true}}}
	for by, want := range map[plan.Bound]string{
		plan.ByFloor: "no more tonight: below 25° since 15:10", plan.ByDarkness: "no more tonight: twilight since 15:10", plan.ByKeyhole: "no more tonight: into the keyhole at 15:10",
		plan.ByHorizon: "no more tonight: behind the horizon since 15:10", plan.ByAzimuthRate: "no more tonight: too fast for the mount at 15:10",
	} {
		over.Over.ClosesBefore = by
		assert.Equal(t, want, say.Choice(over, k))
	}
}

func TestHowATargetFitsInWords(t *testing.T) {
	framed := func(s choose.Size) string {
		return say.Factor(choose.Choice{Size: s}, choose.Factor{Of: choose.ByFraming, Told: true}, kit.Example())
	}
	assert.Equal(t, "the kit lacks camera.width_px: give it to see what fits; times and runs are answered without", framed(choose.Size{Lacks: []string{"camera.width_px"}}))
	assert.Equal(t, "its size is not known; times and runs are answered without", framed(choose.Size{}))
	large := choose.Size{Fit: choose.Larger, Width: 1.5 * sky.Degree, Height: sky.Degree, Shown: 0.4, Columns: 2, Rows: 3}
	large.Object.Major = 3 * sky.Degree
	assert.Equal(t, "3.0° is larger than a field of 90′ × 60′: one shows 40 %, all needs a mosaic of 2 × 3", framed(large))
}

func TestFiltersThatHardlySuitInWords(t *testing.T) {
	assert.Empty(t, say.Unsuited(nil))
	assert.Equal(t, "Ha gives less than 1 % of what a filter for its light would; [[target.filter]] gives the target filters of its own", say.Unsuited([]choose.Through{{Filter: "Ha", Suits: 0.002}}))
	through := []choose.Through{{Filter: "L", Suits: 1, MoonTakes: 0.6}, {Filter: "Ha", Suits: 0.01, MoonTakes: 0.2}}
	assert.Equal(t, "costs 60 % through L, 20 % through Ha", say.MoonCosts(through, 0.5))
	assert.Equal(t, "costs 50 %", say.MoonCosts(through[:1], 0.5))
	assert.Equal(t, "shines in all colours: a luminance filter would do better (Ha gives 1 % of that)",
		say.Factor(choose.Choice{Through: through}, choose.Factor{Of: choose.ByFilter, Told: true}, kit.Example()))
}

func TestWhenInTheYearATargetIsBestInWords(t *testing.T) {
	night := func(month time.Month, day int, dark, usable, free time.Duration) choose.YearNight {
		return choose.YearNight{Date: plan.Date{Year: 2026, Month: month, Day: day}, Dark: dark, Usable: usable, MoonFree: free, Illuminated: 0.03}
	}
	y := choose.Year{Kit: kit.Example(), Nights: []choose.YearNight{night(11, 30, time.Hour, time.Hour, 0)}}
	assert.Equal(t, "the Moon is up whenever it can be used", say.Year(y))
	y.Nights[0].Usable = 0
	assert.Equal(t, "never above 25° and clear of the horizon in the dark", say.Year(y))
	y.Nights[0].Dark = 0
	assert.Equal(t, "never dark enough in all this time", say.Year(y))
	y.Nights = append(y.Nights, night(12, 8, time.Hour, time.Hour, 370*time.Minute), night(12, 9, time.Hour, time.Hour, 360*time.Minute))
	assert.Equal(t, "best around 8 Dec: 6 h 10 min, new Moon; nearly as good from 8 Dec to 9 Dec", say.Year(y))
}
