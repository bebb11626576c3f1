package card

import (
	"sort"
	"time"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
)

// Flats is when the sky overhead is right for flats: in the evening through the filter that needs most light
// first, in the morning the other way round. Lacks names the keys of the kit without which only the order is
// known; the times are then not OK.
type Flats struct {
	Evening, Morning []FlatTime
	Lacks            []string
}

// FlatTime is when flats through one filter are possible: while half the full well takes ShortestFlat to
// LongestFlat.
type FlatTime struct {
	Filter   string
	From, To sky.Event
}

// The exposures of a good flat: long enough for any shutter and short enough that stars draw no lines (common
// practice).
const (
	ShortestFlat = 1 * time.Second
	LongestFlat  = 15 * time.Second
)

// flatFill is the share of the full well that a flat is exposed to (common practice).
const flatFill = 0.5

// FlatsOf returns when flats can be taken through the kit's filters in a night.
func FlatsOf(n *plan.Night) Flats {
	var f Flats
	filters := append([]kit.Filter{}, n.Kit.Subs.Filters...)
	sort.SliceStable(filters, func(i, j int) bool { return widthOf(filters[i]) < widthOf(filters[j]) })
	for _, filter := range filters {
		evening, morning, lacks := flatTimes(n, filter)
		f.Evening, f.Morning = append(f.Evening, evening), append([]FlatTime{morning}, f.Morning...)
		for _, key := range lacks {
			f.Lacks = appendNew(f.Lacks, key)
		}
	}
	return f
}

// widthOf is how wide a filter's band is, by its name where the kit is silent.
func widthOf(f kit.Filter) light.Wavelength {
	band, _ := light.BandOf(f)
	return band.To - band.From
}

func flatTimes(n *plan.Night, filter kit.Filter) (evening, morning FlatTime, lacks []string) {
	evening, morning = FlatTime{Filter: filter.Name}, FlatTime{Filter: filter.Name}
	gathers := exposure.LightOf(n.Kit, filter)
	lacks = gathers.Lacks
	if n.Kit.Camera.FullWellE <= 0 {
		lacks = appendNew(lacks, "camera.full_well_e")
	}
	if len(lacks) > 0 {
		return evening, morning, lacks
	}
	takes := func(sun sky.Angle) float64 {
		return flatFill * n.Kit.Camera.FullWellE * gathers.Value.PixelsPerArcsec2() / gathers.Value.StarElectronsPerS(light.TwilightMagPerArcsec2(sun))
	}
	high, brightEnough := sunFor(takes, LongestFlat.Seconds()), takes(0) <= LongestFlat.Seconds()
	low := sunFor(takes, ShortestFlat.Seconds())
	if !brightEnough {
		return evening, morning, nil // even at sunset it takes too long
	}
	evening.From, morning.To = n.Frame.SunBelow(n.Span.From, low)
	evening.To, morning.From = n.Frame.SunBelow(n.Span.From, high)
	return evening, morning, nil
}

// sunFor returns the Sun's altitude at which a flat takes so many seconds, 0° if it takes longer there
// already. takes grows as the Sun sinks.
func sunFor(takes func(sky.Angle) float64, seconds float64) sky.Angle {
	high, low := sky.Angle(0), -15*sky.Degree
	if takes(high) >= seconds {
		return high
	}
	for range 40 {
		if middle := (high + low) / 2; takes(middle) < seconds {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

func appendNew(list []string, text string) []string {
	for _, known := range list {
		if known == text {
			return list
		}
	}
	return append(list, text)
}
