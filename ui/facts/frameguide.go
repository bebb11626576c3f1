package facts

import (
	"math"

	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/catalog/deep"
)

// Guide is what the guide camera has at the target while the main chip stands as it does.
type Guide struct {
	Chip     framing.Chip
	Faintest float64             // V magnitude of the faintest star that one exposure holds
	Stars    []framing.FieldStar // bright enough and clear of the edges, brightest first
	Complete float64             // the magnitude to which the stars are known there
	Distance sky.Angle           // of the guide telescope's aim from the main one's
	OffsetIn bool                // the kit says how far off it looks
	Without  []framing.Arc       // directions to look off in by Distance, from the chip's up anticlockwise, in which there is none
}

// guideDirections is how finely the directions are tried: every 5°.
const guideDirections = 72

// supposedOffset is how far a guide telescope may well look off when the kit does not say. Common practice:
// rings and dovetails hold it to about half a degree.
const supposedOffset = 0.5 * sky.Degree

func (f *Frame) guide(r Run) {
	light, ok := framing.DefaultGuideLight(r.Kit)
	if !ok {
		return
	}
	g := Guide{Faintest: light.FaintestMag(), Distance: supposedOffset}
	g.Chip, _ = framing.GuideChip(r.Kit, f.Chip)
	if offset := r.Kit.Guide.Offset; offset != nil {
		g.OffsetIn = true
		g.Distance = sky.Angle(math.Hypot(float64(offset.Right), float64(offset.Up)))
	}
	reach := g.Distance + 1.1*sky.Angle(g.Chip.CornerPixels())*g.Chip.PerPixel
	near := fieldStars(f.Chip.Centre(), reach, g.Faintest)
	g.Complete = deep.Limits(f.Chip.Centre(), reach).CompleteTo
	g.Stars = g.Chip.Seen(near, g.Faintest)
	g.Without = framing.WithoutStar(framing.GuideDirections(r.Kit, f.Chip, g.Distance, guideDirections, near, g.Faintest))
	f.Guide = &g
}

func fieldStars(centre sky.J2000, radius sky.Angle, faintest float64) []framing.FieldStar {
	var stars []framing.FieldStar
	for _, s := range deep.Near(centre, radius, faintest) {
		stars = append(stars, framing.FieldStar{Place: s.Place, Mag: s.Magnitude})
	}
	return stars
}
