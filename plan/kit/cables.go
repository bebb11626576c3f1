package kit

import "duskhand/sky"

// Cables is how the cables between the ground and the mount hang: straight at the azimuth Straight, about the
// mount's own axis, and how far they reach From and To, all unwrapped, north 0 and clockwise +. From and To
// are nil where the kit sets no bound.
type Cables struct {
	Straight sky.Angle
	From, To *sky.Angle
}

// Holds tells whether the cables reach to an unwrapped azimuth.
func (c Cables) Holds(azimuth sky.Angle) bool {
	return (c.From == nil || azimuth >= *c.From) && (c.To == nil || azimuth <= *c.To)
}

func cablesFields() []field {
	return []field{
		{key: "mount.azimuth_straight_deg", kind: number, unit: "degrees", min: -360, max: 360, fallback: 0.0, example: "180",
			help: "The azimuth at which the cables to the mount hang straight; what they have turned is counted from there.",
			set:  func(d *draft, v value) { d.kit.Mount.Cables.Straight = v.degrees() }},
		{key: "mount.azimuth_from_deg", kind: number, unit: "degrees", min: -1080, max: 1080, need: optional, example: "-90",
			help: "How far they reach anticlockwise, counted on through 0 and beyond: -90 is west, once round from 270; without it nothing is said of an end.",
			set:  func(d *draft, v value) { from := v.degrees(); d.kit.Mount.Cables.From = &from }},
		{key: "mount.azimuth_to_deg", kind: number, unit: "degrees", min: -1080, max: 1080, need: optional, example: "450",
			help: "How far they reach clockwise, counted on through 360: 450 is east, a quarter beyond a whole turn from north.",
			set:  func(d *draft, v value) { to := v.degrees(); d.kit.Mount.Cables.To = &to }},
	}
}

func (r *reader) checkCables() {
	const straight, from, to = "mount.azimuth_straight_deg", "mount.azimuth_from_deg", "mount.azimuth_to_deg"
	c := r.draft.kit.Mount.Cables
	if r.sound(straight, from) && c.From != nil && *c.From > c.Straight {
		r.accuse(from, "is beyond", straight, "give an azimuth that is smaller, counted on below 0 if need be")
	}
	if r.sound(straight, to) && c.To != nil && *c.To < c.Straight {
		r.accuse(to, "is short of", straight, "give an azimuth that is larger, counted on above 360 if need be")
	}
}
