package choose_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// fullMoonDate has the Moon up all night at 97 % and more.
var fullMoonDate = plan.Date{Year: 2026, Month: time.December, Day: 24}

// through is the example's kit with other filters.
func through(filters ...kit.Filter) kit.Kit {
	k := kit.Example()
	for i := range filters {
		filters[i].Exposure, filters[i].Count = 5*time.Minute, 1000
	}
	k.Subs.Filters = filters
	return k
}

var (
	clear = kit.Filter{Name: "L", Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300}
	ha    = kit.Filter{Name: "Ha", Kind: kit.LineFilter, Line: "Hα", CentreNM: 656.28, BandwidthNM: 3}
)

// Common practice: at full Moon one takes bright nebulae through narrow filters, and no galaxies.
func TestAtFullMoonANarrowFilterRanksNebulaeFirst(t *testing.T) {
	k := through(ha)
	ranked := rank(t, k, fullMoonDate, choose.Targets(k), choose.Wish{})
	for i, c := range ranked[:10] {
		assert.Contains(t, []string{"bright nebula", "supernova remnant", "planetary nebula"}, c.Target.Object.Type, "%d: %s", i+1, c.Target.Name)
	}
	galaxy := rank(t, k, fullMoonDate, named(t, "NGC 1365"), choose.Wish{})[0]
	assert.Less(t, galaxy.Factors[choose.ByFilter].Share, 0.02)
	assert.True(t, galaxy.Factors[choose.ByFilter].Told)
	assert.False(t, galaxy.ByLines)
	orion := rank(t, k, fullMoonDate, named(t, "M 42"), choose.Wish{})[0]
	assert.Greater(t, orion.Factors[choose.ByMoon].Share, 0.85, "it shines ten times as bright as the moonlit sky there")
	inLuminance := rank(t, through(clear), fullMoonDate, named(t, "NGC 1365"), choose.Wish{})[0]
	assert.Less(t, inLuminance.Factors[choose.ByMoon].Share, 0.3)
}

func TestTheMoonsCostIsToldByFilter(t *testing.T) {
	k := through(clear, ha)
	k.Targets[0].Filters = []kit.TargetFilter{{Name: "L"}, {Name: "Ha"}}
	c := rank(t, k, fullMoonDate, k.Targets[:1], choose.Wish{})[0]
	require.Len(t, c.Through, 2)
	assert.Greater(t, c.Through[0].MoonTakes, 3*c.Through[1].MoonTakes)
	// The mean is that of the two, by what each is worth and how it suits.
	assert.Greater(t, 1-c.Factors[choose.ByMoon].Share, c.Through[1].MoonTakes)
	assert.Less(t, 1-c.Factors[choose.ByMoon].Share, c.Through[0].MoonTakes)
}

// Of a kit's filters those that suit a target count; a target's own count whether they suit or not.
func TestTheFiltersThatSuitAreCounted(t *testing.T) {
	k := through(clear, ha)
	names := func(target kit.Target) string {
		var all []string
		for _, c := range rank(t, k, fullMoonDate, []kit.Target{target}, choose.Wish{})[0].Through {
			all = append(all, c.Filter)
		}
		return strings.Join(all, " ")
	}
	galaxy, faint := named(t, "NGC 1365")[0], named(t, "Sh2-264")[0]
	assert.Equal(t, "L", names(galaxy))
	assert.Equal(t, "Ha", names(faint))
	galaxy.Filters = []kit.TargetFilter{{Name: "L"}, {Name: "Ha"}}
	assert.Equal(t, "L Ha", names(galaxy))
	assert.False(t, rank(t, k, fullMoonDate, []kit.Target{galaxy}, choose.Wish{})[0].Through[0].Guessed)
	silent := through(kit.Filter{Name: "Ha", Kind: kit.LineFilter, CentreNM: 656.28})
	assert.True(t, rank(t, silent, fullMoonDate, []kit.Target{faint}, choose.Wish{})[0].Through[0].Guessed)
}

func TestATargetOfLinesBeginsInTwilight(t *testing.T) {
	k := through(clear, ha)
	k.Site.DarkSunLine = -12 * sky.Degree
	k.Targets[0].Filters = []kit.TargetFilter{{Name: "Ha"}}
	n := plan.NewNight(k, moonlitDate)
	ranked := rank(t, k, moonlitDate, k.Targets, choose.Wish{})
	for _, c := range ranked {
		want := n.Dark[0].From
		if c.Target.Name == k.Targets[0].Name {
			want = n.Twilight.NauticalDusk.At
		}
		require.NotEmpty(t, c.Windows)
		assert.WithinDuration(t, want, c.Windows[0].From, 10*time.Second, c.Target.Name)
	}
}

// A kit whose filters serve all its targets names those that hardly suit one: 3 nm of Hα give a galaxy about 3/300 of what
// a usual luminance does. None is named of a target with filters of its own, or where no filter suits better.
func TestFiltersThatHardlySuitATargetAreNamed(t *testing.T) {
	k := kit.Example()
	k.Subs.Filters = []kit.Filter{{Name: "L", Exposure: time.Minute, Count: 60, Kind: kit.Broad, CentreNM: 550, BandwidthNM: 300},
		{Name: "Ha", Exposure: time.Minute, Count: 60, Kind: kit.LineFilter, CentreNM: 656.28, BandwidthNM: 3}}
	unsuited := func(k kit.Kit, target kit.Target) []choose.Through {
		return choose.NewNight(plan.NewNight(k, moonlitDate), k.Axis, nil).Unsuited(target)
	}
	galaxy, nebula := named(t, "NGC 253")[0], named(t, "M 42")[0]
	got := unsuited(k, galaxy)
	require.Len(t, got, 1)
	assert.Equal(t, "Ha", got[0].Filter)
	assert.InDelta(t, 0.006, got[0].Suits, 0.006, "a hundredth of the band, and reading counts for more in it")
	assert.Empty(t, unsuited(k, nebula), "luminance does for a bright nebula")
	own := galaxy
	own.Filters = []kit.TargetFilter{{Name: "Ha"}}
	assert.Empty(t, unsuited(k, own))
	k.Subs.Filters = k.Subs.Filters[1:]
	assert.Empty(t, unsuited(k, galaxy), "there is no other")
}
