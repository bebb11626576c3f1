package survey

import (
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/scatter"
	"duskhand/sky"
)

// Thermal is how the half-flux diameter has gone with the temperature of the air since focusing.
type Thermal struct {
	PerKelvin sky.Angle // positive: stars grow as it gets warmer
	Error     sky.Angle // of it, one σ, from the scatter about the line
	Lights    int
	ColdestC  float64
	WarmestC  float64
}

// The bounds of ByTemperature; choices of ours. A kelvin is what a thermometer beside a telescope can tell.
const (
	leastSpanK  = 1.0
	heldReading = 20 * time.Minute
)

// AirAt returns the temperature of the air at t in °C, on the straight line between the two readings about it.
// ok is false where the nearest reading lies further off than 20 min, before the first or after the last.
func AirAt(readings []checklist.Temperature, t time.Time) (c float64, ok bool) {
	var before, after *checklist.Temperature
	for i := range readings {
		switch r := &readings[i]; {
		case !r.At.After(t):
			before = r
		case after == nil:
			after = r
		}
	}
	switch {
	case before != nil && after != nil:
		share := t.Sub(before.At).Seconds() / after.At.Sub(before.At).Seconds()
		return before.C + share*(after.C-before.C), true
	case before != nil:
		return before.C, t.Sub(before.At) <= heldReading
	case after != nil:
		return after.C, after.At.Sub(t) <= heldReading
	}
	return 0, false
}

// ByTemperature lays a straight line through the half-flux diameters of the lights since focusing against the
// temperature of the air, by least squares. Lights of different filters are held each against the best of its
// own, as in Refocus; the slope is that of the filter of the last light. ok is false with fewer than six lights
// whose temperature is known, or when it has changed by less than a kelvin.
func ByTemperature(points []Point, readings []checklist.Temperature, focused time.Time) (t Thermal, ok bool) {
	var known []Point
	var air []float64
	for _, p := range points {
		if c, read := AirAt(readings, p.Start); read && p.HFD > 0 && !p.Start.Before(focused) {
			known, air = append(known, p), append(air, c)
		}
	}
	growths := growthsOf(known)
	if len(growths) < fewestToJudge {
		return Thermal{}, false
	}
	at := map[time.Time]float64{}
	for i, p := range known {
		at[p.Start] = air[i]
	}
	var xs []float64
	for _, g := range growths {
		xs = append(xs, at[g.point.Start])
	}
	last := growths[len(growths)-1]
	t = Thermal{Lights: len(xs), ColdestC: xs[0], WarmestC: xs[0]}
	for _, x := range xs {
		t.ColdestC, t.WarmestC = min(t.ColdestC, x), max(t.WarmestC, x)
	}
	if t.WarmestC-t.ColdestC < leastSpanK {
		return Thermal{}, false
	}
	best := float64(last.point.HFD) / last.ratio
	slope, within := scatter.Line(xs, values(growths))
	t.PerKelvin, t.Error = sky.Angle(best*slope), sky.Angle(best*within)
	return t, true
}

// Follows tells that the stars' size goes with the temperature: by more than two errors of the slope.
func (t Thermal) Follows() bool { return math.Abs(float64(t.PerKelvin)) >= 2*float64(t.Error) }
