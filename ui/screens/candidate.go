package screens

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky/words"
	"duskhand/ui/draw"
	"duskhand/ui/layout"
	"duskhand/ui/theme"
)

// DrawCandidate writes two lines about a star and returns how many rows they took.
func DrawCandidate(area draw.Area, y int, what string, c *plan.Candidate) int {
	name := c.Star.Name()
	if bayer := c.Star.Bayer(); bayer != "" && bayer != name {
		name += ", " + bayer
	}
	x := 0
	if what != "" {
		x = area.Put(0, y, theme.Faint, what+" ")
	}
	mag := words.Number(c.Star.Magnitude.Value, 1)
	area.Put(x, y, theme.Text, layout.Longest(area.Width()-x, name+", magnitude "+mag, name+", "+mag,
		c.Star.Name()))
	area.Put(3, y+1, theme.Text, layout.Longest(area.Width()-3, whereStands(c)...))
	return 2
}

func whereStands(c *plan.Candidate) []string {
	way := "setting"
	if c.Rising {
		way = "rising"
	}
	up, azimuth := fmt.Sprintf("%s up", words.Degrees(c.Place.Altitude, 0)), words.Direction(c.Place.Azimuth, 0)
	return []string{
		fmt.Sprintf("%s, azimuth %s, %s, %s", up, azimuth, words.Compass(c.Place.Azimuth), way),
		fmt.Sprintf("%s, %s %s, %s", up, azimuth, words.Compass(c.Place.Azimuth), way),
		fmt.Sprintf("%s, %s %s, %s", up, azimuth, words.CompassLetters(c.Place.Azimuth), way),
	}
}
