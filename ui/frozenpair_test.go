package ui_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
)

// line returns the first line of the screen that begins with words, without what surrounds it.
func (s *session) line(words string) string {
	for _, l := range strings.Split(s.text(), "\n") {
		if l = strings.TrimSpace(l); strings.HasPrefix(l, words) {
			return l
		}
	}
	return ""
}

// starOf is the star that a line asks to centre.
func starOf(line string) string {
	star, _, _ := strings.Cut(strings.TrimPrefix(line, "Centre "), " on the live view")
	return star
}

// aligning opens a night at its first star, all before it said with the one key.
func aligning(t *testing.T, at time.Time, place sky.Site, zone string) *session {
	k := kit.Example()
	k.Example = false
	k.Axis = kit.Axis{Uncertainty: 3 * sky.Degree}
	k.Site.Place = place
	zoned, err := time.LoadLocation(zone)
	require.NoError(t, err)
	k.Site.Zone = zoned
	if place.Latitude > 0 { // the example's targets never rise there
		k.Targets = []kit.Target{{Name: "M 81", Star: sky.Star{Place: sky.J2000{RA: 148.888 * sky.Degree, Dec: 69.065 * sky.Degree}}}}
	}
	s := opensOwn(t, k, at)
	for range 30 {
		if starOf(s.line("Centre ")) != "" && s.line("TWO") == "" && strings.Contains(s.text(), "does not know how it stands") {
			break
		}
		s.press("space")
	}
	return s.sees("The mount does not know how it stands until it has seen two stars.")
}

func TestThePairIsFrozenWithItsFirstStar(t *testing.T) {
	for _, c := range []struct {
		name  string
		at    time.Time
		place sky.Site
		zone  string
	}{
		{"52° north in January", time.Date(2027, 1, 9, 16, 30, 0, 0, time.UTC), site(52, 5), "UTC"},
		{"52° north in January, later", time.Date(2027, 1, 9, 17, 36, 0, 0, time.UTC), site(52, 5), "UTC"},
		{"35° south in December", time.Date(2026, 12, 5, 10, 30, 0, 0, time.UTC), site(-35, 138.6), "Australia/Adelaide"},
		{"35° south in July", time.Date(2027, 7, 3, 8, 30, 0, 0, time.UTC), site(-35, 138.6), "Australia/Adelaide"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := aligning(t, c.at, c.place, c.zone)
			first := starOf(s.line("Centre "))
			s.press("space").sees("One star leaves open how the mount is turned about it.")
			second := starOf(s.line("Centre "))
			require.NotEqual(t, first, second)
			for range 15 {
				s.pass(time.Minute)
				require.Equal(t, second, starOf(s.line("Centre ")), "chosen for %s, at %s", first, s.now)
			}
			s.press("up").sees("does not know how it stands")
			assert.Equal(t, first, starOf(s.line("Centre ")), "what is done stays as it was done")
			s.press("3").sees(first + ", then " + second)
			s.press("b", "space").pass(40 * time.Minute)
			s.press("up").sees("One star leaves open")
			assert.Equal(t, second, starOf(s.line("Centre ")))
			s.press("up")
			assert.Equal(t, first, starOf(s.line("Centre ")))
		})
	}
}

func TestASecondStarThatIsNotFoundIsReplacedByNameOfTheChange(t *testing.T) {
	s := aligning(t, time.Date(2027, 1, 9, 17, 36, 0, 0, time.UTC), site(52, 5), "UTC")
	first := starOf(s.line("Centre "))
	s.press("space")
	second := starOf(s.line("Centre "))
	s.press("w").press(typed("behind the chimney")...).press("3")
	s.press("b").sees("One star leaves open", " in the place of "+second+": that was not found.")
	require.NotEqual(t, second, starOf(s.line("Centre ")))
	s.press("3").sees(" in the place of "+second+": that was not found.", first+", then ")
	s.seesNot(first + ", then " + second)
	s.press("u").sees(first + ", then " + second).seesNot("in the place of")
}

func site(latitude, longitude sky.Angle) sky.Site {
	return sky.Site{Latitude: latitude * sky.Degree, Longitude: longitude * sky.Degree, ElevationMetres: 50}
}
