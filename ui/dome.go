package ui

import (
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// domeOf is the sky as the eye sees it: the kit's horizon, every star that the list knows, the target
// where it will be used, Moon and keyhole.
func (m Model) domeOf() draw.DomeValues {
	s := m.stars
	v := draw.DomeValues{Horizon: m.config.Kit.Horizon.At}
	add := func(c plan.Candidate) {
		v.Stars = append(v.Stars, draw.DomeStar{Place: c.Place, Magnitude: c.Star.Magnitude.Value})
	}
	for _, c := range s.Sky.Fit {
		add(*c)
	}
	for _, c := range s.Sky.Unfit {
		if c.Place.Altitude > 0 {
			add(c.Candidate)
		}
	}
	v.Marks = append(v.Marks, draw.DomeMark{Place: s.Aim, Kind: draw.TargetMark, Label: m.tonight.Target.Name})
	if s.Sky.Moon.Altitude > 0 {
		v.Marks = append(v.Marks, draw.DomeMark{Place: s.Sky.Moon.Horizontal, Kind: draw.MoonMark, Label: "Moon"})
	}
	axis := m.tonight.Axis
	v.Keyhole = draw.DomeRing{Centre: sky.MountAxis(axis.Tilt, axis.Toward).Horizontal(), Radius: 90*sky.Degree - m.config.Kit.Mount.Ceiling}
	return v
}

// named puts a star first in the dome, with its name: what is chosen must not be left without.
func named(v draw.DomeValues, role theme.Role, c *plan.Candidate) draw.DomeValues {
	star := draw.DomeStar{Place: c.Place, Magnitude: c.Star.Magnitude.Value, Label: c.Star.Name(), Role: role}
	v.Stars = append([]draw.DomeStar{star}, v.Stars...)
	return v
}
