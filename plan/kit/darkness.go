package kit

import "duskhand/sky"

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

// DarkSunFor returns how low the Sun must stand for subs of a target, a negative altitude.
func (k Kit) DarkSunFor(t Target) sky.Angle {
	for _, f := range k.SubsFor(t).Wanted() {
		if f.Kind != LineFilter {
			return k.Site.DarkSun
		}
	}
	return k.Site.DarkSunLine
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
