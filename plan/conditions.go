package plan

import (
	"math"
	"slices"
	"time"

	"duskhand/sky"
)

// conditions lists what the target must satisfy but for darkness, for every axis of a region. The floor counts
// airless altitudes; the horizon profile was measured by eye, so that refraction helps the target over it.
//
// Of all axes the one nearest to the target has it highest. Both rates are harmonic in the axis, as the field
// angle is (see turning), so that the fastest is on the rim; over the region itself they have no bound.
func (c *Course) conditions(axes region) []condition {
	k, pole := c.Kit, c.frame.Pole()
	air := sky.Air{PressureHPa: k.Site.PressureHPa, TemperatureC: k.Site.TemperatureC}
	return []condition{
		{ByFloor, func(t time.Time) sky.Angle { return c.Place(t).Altitude - k.Mount.Floor }},
		{ByHorizon, func(t time.Time) sky.Angle {
			place := c.Place(t)
			return place.Altitude + air.Refraction(place.Altitude) - k.Horizon.At(place.Azimuth)
		}},
		{ByKeyhole, func(t time.Time) sky.Angle { return axes.nearest(c.track.At(t)) - (90*sky.Degree - k.Mount.Ceiling) }},
		{ByAzimuthRate, func(t time.Time) sky.Angle {
			return axes.roomIn(k.Mount.LargestAzimuthRate, c.track.At(t), pole, sky.AzimuthRate)
		}},
		{ByDerotatorRate, func(t time.Time) sky.Angle {
			return axes.roomIn(k.Derotator.LargestRate, c.track.At(t), pole, sky.FieldRate)
		}},
	}
}

// leastRoom is how negative the room in a rate is said to be at most, in largest rates: at the axis it has no bound.
const leastRoom = -100

// roomIn returns what is left below the largest rate for all axes, as the angle of one second.
func (r region) roomIn(largest sky.Rate, target, pole sky.Direction, rateOf func(pole, target, axis sky.Direction) (sky.Rate, bool)) sky.Angle {
	room := func(rate sky.Rate) sky.Angle {
		return max(largest-rate, leastRoom*largest).Times(time.Second)
	}
	nearest := r.nearest(target)
	if nearest < sky.Arcsecond {
		return room(sky.Rate(math.Inf(1)))
	}
	// Neither rate is above ω / sin of the distance from the axis, by Cauchy's inequality.
	if bound := sky.SiderealRate / sky.Rate(nearest.Sin()); nearest < 90*sky.Degree && bound < largest/2 {
		return room(bound)
	}
	size := func(axis sky.Direction) float64 {
		rate, ok := rateOf(pole, target, axis)
		if !ok {
			return math.Inf(1)
		}
		return math.Abs(float64(rate))
	}
	if r.known {
		return room(sky.Rate(size(r.centre)))
	}
	fastest, _ := greatest(func(around float64) float64 { return size(r.at(1, around)) }, r.sharpAt(target))
	return room(sky.Rate(fastest))
}

// instants returns when a condition is looked at in a dark span: every four minutes, and for the horizon profile
// whenever the target passes one of its points too, so that no post is too narrow to be seen.
func (c *Course) instants(kind Bound, dark Span) []time.Time {
	n := max(1, int(math.Ceil(dark.Length().Seconds()/(2*trackStep).Seconds())))
	instants := make([]time.Time, n+1)
	for i := range instants {
		instants[i] = dark.From.Add(time.Duration(float64(dark.Length()) * float64(i) / float64(n)))
	}
	if kind != ByHorizon {
		return instants
	}
	instants = append(instants, c.passesOfPoints(dark)...)
	slices.SortFunc(instants, time.Time.Compare)
	return slices.CompactFunc(instants, time.Time.Equal)
}

// passesOfPoints returns the instants of a span at which the target passes the azimuths of the horizon profile's
// points.
func (c *Course) passesOfPoints(within Span) (instants []time.Time) {
	points := c.Kit.Horizon.Points()
	if len(points) == 0 {
		return nil
	}
	azimuth := func(t time.Time) sky.Angle { return c.Place(t).Azimuth }
	const step = time.Minute // near the zenith the azimuth turns fast
	before, at := within.From, azimuth(within.From)
	for before.Before(within.To) {
		next := earlier(before.Add(step), within.To)
		then := azimuth(next)
		turned := (then - at).Signed()
		for _, p := range points {
			off := func(t time.Time) sky.Angle { return (azimuth(t) - p.Azimuth).Signed() }
			if from := (at - p.Azimuth).Signed(); (from < 0) != (from+turned < 0) && from.Abs() <= turned.Abs() {
				instants = append(instants, sky.Root(off, before, next))
			}
		}
		before, at = next, then
	}
	return instants
}

// ceiling returns when the target comes to the keyhole that closes a window at an instant, for the axis nearest
// to it by then, the axis as known, and the farthest.
func (c *Course) ceiling(closes time.Time) Bounds {
	edge := 90*sky.Degree - c.Kit.Mount.Ceiling
	end := earlier(closes.Add(12*time.Hour), c.Span.To)
	falls := func(room func(sky.Direction) sky.Angle) sky.Event {
		curve := sky.Sample(func(t time.Time) sky.Angle { return room(c.track.At(t)) - edge }, closes, end, 2*trackStep)
		for _, crossing := range curve.Crossings(0) {
			if !crossing.Rising {
				return sky.Event{At: crossing.At, OK: true}
			}
		}
		return sky.Event{}
	}
	early := sky.Event{At: closes, OK: true}
	if c.axes.known {
		return Bounds{early, early, early}
	}
	return Bounds{early, falls(c.axes.alone().nearest), falls(c.axes.farthest)}
}
