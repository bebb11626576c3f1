package kit

import (
	"time"

	"duskhand/sky"
)

// Stars says which stars will do for the alignment. Lowest and Highest bound their altitude about the
// mount's own axis; FaintestMag is a V magnitude; Nearest and Farthest bound how far apart the two may
// stand; MoonGlare is how near the Moon none may; StayFine is how long all of that must still hold; and
// Centring is the rms error with which a star is centred, per axis.
type Stars struct {
	Lowest, Highest   sky.Angle
	FaintestMag       float64
	Nearest, Farthest sky.Angle
	MoonGlare         sky.Angle
	StayFine          time.Duration
	Centring          sky.Angle
	Known             []KnownStar // that the mount knows; none: any will do
	KnownFile         string      // path of a file with more of them, as the kit has it; "" for none
}

func starsFields() []field {
	return []field{
		{key: "stars.lowest_deg", kind: number, unit: "degrees", min: 5, max: 80, fallback: 20.0, example: "20",
			help: "The lowest that an alignment star may stand, about the mount's own axis.",
			set:  func(d *draft, v value) { d.kit.Stars.Lowest = v.degrees() }},
		{key: "stars.highest_deg", kind: number, unit: "degrees", min: 10, max: 90, fallback: 75.0, example: "75",
			help: "The highest; nearer the axis a star is awkward to centre. The keyhole bounds it too.",
			set:  func(d *draft, v value) { d.kit.Stars.Highest = v.degrees() }},
		{key: "stars.faintest_mag", kind: number, unit: "magnitudes", min: 0, max: 5, fallback: 2.5, example: "2.5",
			help: "The faintest star that you still find with certainty.",
			set:  func(d *draft, v value) { d.kit.Stars.FaintestMag = v.number }},
		{key: "stars.nearest_deg", kind: number, unit: "degrees", min: 5, max: 170, fallback: 30.0, example: "30",
			help: "How far apart the two stars must stand at least; near 0 the turn about them stays unknown.",
			set:  func(d *draft, v value) { d.kit.Stars.Nearest = v.degrees() }},
		{key: "stars.farthest_deg", kind: number, unit: "degrees", min: 10, max: 175, fallback: 150.0, example: "150",
			help: "How far apart they may stand at most; near 180 the turn about them stays unknown again.",
			set:  func(d *draft, v value) { d.kit.Stars.Farthest = v.degrees() }},
		{key: "stars.moon_glare_deg", kind: number, unit: "degrees", min: 0, max: 90, fallback: 10.0, example: "10",
			help: "How near the Moon a star is drowned in its light.",
			set:  func(d *draft, v value) { d.kit.Stars.MoonGlare = v.degrees() }},
		{key: "stars.stay_fine_min", kind: number, unit: "minutes", min: 0, max: 120, fallback: 20.0, example: "20",
			help: "How long a star must stay fit: the time that the alignment takes.",
			set:  func(d *draft, v value) { d.kit.Stars.StayFine = v.minutes() }},
		{key: "stars.centring_arcmin", kind: number, unit: "arcminutes", min: 0, openMin: true, max: 60, fallback: 1.0, example: "1",
			help: "How far from the middle a star is when you call it centred, in each axis, as an rms.",
			set:  func(d *draft, v value) { d.kit.Stars.Centring = sky.Angle(v.number) * sky.Arcminute }},
		{key: "stars.known", kind: textList, min: 1, max: 500, need: optional, example: `["Achernar", "Canopus", "Rigel"]`,
			help: "The stars that your mount's computer knows, in any spelling; the two to align on come from these alone, and are named as you name them here. Any will do if left out.",
			set:  func(d *draft, v value) { d.names = v.texts }},
		{key: "stars.known_file", kind: text, min: 1, max: 300, need: optional, example: "mount-stars.txt",
			help: "A file of such names, one a line, beside the kit if it is no full path; what follows # is passed over.",
			set:  func(d *draft, v value) { d.kit.Stars.KnownFile = v.text }},
	}
}

func (r *reader) checkStars() {
	const lowest, highest = "stars.lowest_deg", "stars.highest_deg"
	s, m := r.draft.kit.Stars, r.draft.kit.Mount
	if r.sound(lowest, highest) && s.Lowest >= s.Highest {
		r.accuse(lowest, "is not below", highest, "leave some sky between the two")
	}
	if r.sound(lowest, highest, "mount.ceiling_deg") && s.Lowest < s.Highest && s.Lowest >= m.Ceiling {
		r.accuse(lowest, "is not below", "mount.ceiling_deg", "leave some sky below the keyhole")
	}
	const nearest, farthest = "stars.nearest_deg", "stars.farthest_deg"
	if r.sound(nearest, farthest) && s.Nearest >= s.Farthest {
		r.accuse(nearest, "is not below", farthest, "leave some room between the two")
	}
}
