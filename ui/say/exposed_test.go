package say_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

func TestAdviceInWords(t *testing.T) {
	second := func(n float64) time.Duration { return time.Duration(n * float64(time.Second)) }
	length := func(d time.Duration) exposure.Figure[time.Duration] {
		return exposure.Figure[time.Duration]{Value: d, OK: true}
	}
	share := func(x float64) exposure.Figure[float64] { return exposure.Figure[float64]{Value: x, OK: true} }
	a := exposure.Advice{Filter: kit.Filter{Name: "R", Exposure: second(30)}, Share: 0.05,
		Sky: exposure.Figure[exposure.Sky]{OK: true, Value: exposure.Sky{Dark: 21.3, Mag: 21.25, MoonUp: true, MoonLit: 0.12,
			MoonSeparation: 101 * sky.Degree}},
		Shortest: length(second(41.2)), ShortestDark: length(second(655)), ReadNoise: share(0.081), WellShare: share(0.4), Saturates: share(10.26),
		Signal:  exposure.Figure[exposure.Signal]{OK: true, Value: exposure.Signal{Source: light.Source{Continuum: true, SurfaceMag: 22.2}, Subs: 40, PerPixel: 12, PerArcsec2: 7.7}},
		Longest: exposure.LongestSub{Run: second(20), ByLimit: true, Still: length(second(3.29))}}
	assert.Equal(t, []string{
		"The sky at the target has 21.2 magnitudes per square second of arc; the Moon, 12 % lit and 101° away, hardly brightens it.",
		"30 s of R is too short: reading adds 8 % of noise, where 5 % is allowed.",
		"The shortest sub that holds to that is 42 s under this sky, and 11 min under a moonless one overhead.",
		"Stars brighter than magnitude 10.3 saturate in 30 s.",
		"The sky alone fills 40 % of every pixel; shorter subs leave the stars more room.",
		"In the 40 × 30 s of R that the kit wants the target's light, 22.2 magnitudes per square second of arc by the catalogue, reaches a signal to noise of 7.7 in a square second of arc and 12 in a pixel.",
		"Only 20 s fit before the rewind: 30 s no longer do.",
		"If the derotator stood still, a star in the corner would trail by a pixel in 3.2 s.",
	}, say.SubLengths(facts.SubLengths{Filters: []exposure.Advice{a}}))
	a.Longest = exposure.LongestSub{}
	a.WellShare = share(1.2)
	words := strings.Join(say.SubLengths(facts.SubLengths{Filters: []exposure.Advice{a}}), "\n")
	assert.Contains(t, words, "The sky alone fills every pixel in 30 s; take shorter subs.")
	assert.Contains(t, words, "No sub fits any more before the target's window closes.")
	a.Sky = exposure.Figure[exposure.Sky]{}
	assert.Contains(t, say.SubLengths(facts.SubLengths{Filters: []exposure.Advice{a}})[0], "The target is below the horizon.")
	a.Sky = exposure.Figure[exposure.Sky]{OK: true, Value: exposure.Sky{Twilight: true, Mag: 21}}
	assert.Contains(t, say.SubLengths(facts.SubLengths{Filters: []exposure.Advice{a}})[0], "It is twilight")
}

func TestWhatASilentKitTakesAwayIsNamed(t *testing.T) {
	a := exposure.Advice{Filter: kit.Filter{Name: "L", Exposure: time.Minute}, Longest: exposure.LongestSub{Run: time.Hour},
		Sky: exposure.Figure[exposure.Sky]{Lacks: []string{"site.sky_mag_per_arcsec2", "site.extinction_mag_per_airmass"}}}
	said := say.SubLengths(facts.SubLengths{Filters: []exposure.Advice{a}})
	assert.Contains(t, said, "The kit does not give the sky with the Moon (give site.sky_mag_per_arcsec2, site.extinction_mag_per_airmass).")
	assert.Contains(t, said, "A sub that begins now may last 1 h 00 min, until the target's window closes.")
}

func TestALineIsSaidInRayleighAndWhatTheMoonTakesOfIt(t *testing.T) {
	k := kit.Example()
	k.Targets[0], _ = k.FindTarget("Rosette Nebula")
	k.Subs.Filters = []kit.Filter{{Name: "Ha", Kind: kit.LineFilter, Line: "Hα", CentreNM: 656.28, BandwidthNM: 3, Exposure: 300 * time.Second, Count: 20}}
	n := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 23}) // the Moon is full on the 24th
	c := n.Course(k.Targets[0], k.Axis)
	w := c.Windows()[0]
	said := strings.Join(say.SubLengths(facts.SubLengths{Filters: exposure.Advise(n, c, exposure.Moment{At: w.From.Add(2 * time.Hour), Until: w.To})}), " ")
	assert.Contains(t, said, "700 rayleigh in Hα by memory, reaches a signal to noise of 9.8")
	assert.Contains(t, said, "Through Ha the Moon takes")
}
