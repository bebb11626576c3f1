// Package card is what is typed into a mount's hand control and written on one page of paper before a night:
// places, times and angles, as values. It makes no text.
package card

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/worth"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Card is the values of one night, for an instant of its evening.
type Card struct {
	Night   *plan.Night
	At      time.Time // that places of date and heights are for
	Pole    Star      // Polaris, or σ Octantis south of the equator: its height checks the site
	SunSets Setting
	Stars   []Star // of the alignment, in order, with the check star last
	Targets []Target
	Flats   Flats
}

// Star is a star or target as a hand control wants it. Place is apparent, as a telescope sees it through the
// air of the kit; OfDate is geocentric, true equator and equinox.
type Star struct {
	Name   string
	J2000  sky.J2000
	OfDate sky.OfDate
	Place  sky.Horizontal
}

// Setting is the Sun's centre going down: its azimuth then checks site and clock. OK is false when it does not.
type Setting struct {
	sky.Event
	Azimuth sky.Angle
}

// Target is a target of the night with its first run; Any is false if it has none.
type Target struct {
	Star
	Any bool
	Run plan.Run
	End plan.Side // the end of the travel that the start angle is nearer to; NoLimit in the middle half
}

// Of returns the card of a night for an instant, with the stars to align on and the kit's targets, each as if
// it had the night to itself.
func Of(n *plan.Night, at time.Time, stars []catalog.Object, targets []kit.Target, axis kit.Axis) Card {
	c := Card{Night: n, At: at, Flats: FlatsOf(n)}
	if pole, err := catalog.Find(poleStar(n.Kit.Site.Place.Latitude)); err == nil {
		c.Pole = c.star(pole.Name(), pole.Star)
	}
	if sets := n.Twilight.Sunset; sets.OK {
		c.SunSets = Setting{sets, n.Frame.Sun(sets.At).Azimuth}
	}
	for _, s := range stars {
		c.Stars = append(c.Stars, c.star(s.Name(), s.Star))
	}
	for _, t := range targets {
		c.Targets = append(c.Targets, c.target(t, axis))
	}
	return c
}

func poleStar(latitude sky.Angle) string {
	if latitude < 0 {
		return "σ Oct"
	}
	return "Polaris"
}

func (c Card) star(name string, star sky.Star) Star {
	fixed, site := c.Night.Frame.Fix(star), c.Night.Kit.Site
	place := c.Night.Frame.Horizontal(fixed, c.At)
	place.Altitude += sky.Air{PressureHPa: site.PressureHPa, TemperatureC: site.TemperatureC}.Refraction(place.Altitude)
	return Star{Name: name, J2000: star.Place, OfDate: c.Night.Frame.Apparent(fixed, c.At), Place: place}
}

func (c Card) target(t kit.Target, axis kit.Axis) Target {
	target := Target{Star: c.star(t.Name, t.Star)}
	course := c.Night.Course(t, axis)
	runs := course.Schedule(plan.Start{At: c.Night.Span.From}, worth.Sequence(c.Night, course.Target)).Runs
	if target.Any = len(runs) > 0; target.Any {
		target.Run, target.End = runs[0], endOf(c.Night.Kit.Derotator, runs[0].StartAngle)
	}
	return target
}

func endOf(d kit.Derotator, angle sky.Angle) plan.Side {
	quarter := d.Travel() / 4
	switch {
	case angle < d.Min+quarter:
		return plan.MinLimit
	case angle > d.Max-quarter:
		return plan.MaxLimit
	}
	return plan.NoLimit
}

// ClockCost returns by how much a star of that declination is missed for each minute that the clock is wrong,
// before an alignment: 15.04′·cos δ along its parallel. Longitude that is wrong by a quarter of a degree does
// the same.
//
// Source: the Earth's rotation; common practice.
func ClockCost(declination sky.Angle) sky.Angle {
	return sky.Angle(float64(sky.SiderealRate.Times(time.Minute)) * declination.Cos())
}
