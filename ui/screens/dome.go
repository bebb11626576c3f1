package screens

import (
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// Dome is the sky as the eye sees it: the kit's horizon, every star that the list knows, the target
// where it will be used, Moon and keyhole.
func (s Status) Dome() draw.DomeValues {
	stars := s.Stars
	v := draw.DomeValues{Horizon: s.Kit.Horizon.At}
	add := func(c plan.Candidate) {
		v.Stars = append(v.Stars, draw.DomeStar{Place: c.Place, Magnitude: c.Star.Magnitude.Value})
	}
	for _, c := range stars.Sky.Fit {
		add(*c)
	}
	for _, c := range stars.Sky.Unfit {
		if c.Place.Altitude > 0 {
			add(c.Candidate)
		}
	}
	v.Marks = append(v.Marks, draw.DomeMark{Place: stars.Aim, Kind: draw.TargetMark,
		Label: s.Tonight.Target.Name})
	if stars.Sky.Moon.Altitude > 0 {
		v.Marks = append(v.Marks, draw.DomeMark{Place: stars.Sky.Moon.Horizontal, Kind: draw.MoonMark,
			Label: "Moon"})
	}
	axis := s.Tonight.Axis
	v.Keyhole = draw.DomeRing{Centre: sky.MountAxis(axis.Tilt, axis.Toward).Horizontal(),
		Radius: 90*sky.Degree - s.Kit.Mount.Ceiling}
	return v
}

// Named puts a star first in the dome, with its name: what is chosen must not be left without.
func Named(v draw.DomeValues, role theme.Role, c *plan.Candidate) draw.DomeValues {
	star := draw.DomeStar{Place: c.Place, Magnitude: c.Star.Magnitude.Value, Label: c.Star.Name(), Role: role}
	v.Stars = append([]draw.DomeStar{star}, v.Stars...)
	return v
}

// DomeWidth is how wide the sky is drawn beside a list: as the window's height lets it be round, but never
// more than half; none in a window too narrow for both.
func DomeWidth(width, height int) int {
	const narrowest = 70
	if width < narrowest || height < 10 {
		return 0
	}
	return min(width/2, 2*height+2)
}
