package kit

import (
	"slices"

	"duskhand/sky"
)

// darknessFields are how deep the Sun must stand for the night to count as dark.
func darknessFields() []field {
	return []field{
		{key: "site.dark_sun_deg", kind: number, unit: "degrees", min: -18, max: -6, fallback: -18.0, example: "-12",
			help: "How low the Sun must stand for subs: -18 is full night; -12 or -9 make use of nights that never get so dark, at the price of a brighter sky.",
			set:  func(d *draft, v value) { d.kit.Site.DarkSun = v.degrees() }},
		{key: "site.dark_sun_line_deg", kind: number, unit: "degrees", min: -18, max: -6, need: optional, example: "-12",
			help: "The same for targets that are taken through line filters alone, which see little of the twilight; dark_sun_deg if left out.",
			set:  func(d *draft, v value) { d.kit.Site.DarkSunLine = v.degrees() }},
	}
}

// DarkSunFor returns the altitude that the Sun must stand below for subs of a target, of the zero Target for the
// kit's own filters: −18° for a site that says nothing.
func (k Kit) DarkSunFor(t Target) sky.Angle {
	level, wanted := k.Site.DarkSunLine, k.SubsFor(t).Wanted()
	if len(wanted) == 0 || slices.ContainsFunc(wanted, func(f Filter) bool { return f.Kind != LineFilter }) {
		level = k.Site.DarkSun
	}
	if level == 0 {
		return sky.AstronomicalTwilight
	}
	return level
}

// checkDarkness fills in what the file leaves to the other key.
func (r *reader) checkDarkness() {
	const broad, line = "site.dark_sun_deg", "site.dark_sun_line_deg"
	s := &r.draft.kit.Site
	if !r.given[line] {
		s.DarkSunLine = s.DarkSun
	}
	if r.sound(broad, line) && s.DarkSunLine < s.DarkSun {
		r.accuse(line, "is lower than", broad, "line filters need no darker sky than the others")
	}
}
