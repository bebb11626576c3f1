package plan

import (
	"math"
	"time"

	"duskhand/sky"
)

// AzimuthAboutAxis returns the target's azimuth about the mount's own axis at t, airless, for the axis as
// known: in the horizon frame carried by the smallest rotation from the zenith to the axis, from north
// through east. [0°, 360°).
func (c *Course) AzimuthAboutAxis(t time.Time) sky.Angle {
	return azimuthIn(tiltedFrame(c.nominal.Axis()), c.track.At(t)).Wrapped()
}

func azimuthIn(tilted triad, d sky.Direction) sky.Angle {
	return sky.Angle(math.Atan2(tilted[0].Dot(d), tilted[1].Dot(d)))
}

// AzimuthTurn is how a mount turns in azimuth about its own axis while it follows a target, clockwise +, that
// is from north through east: By in all, unwrapped; Least and Most are the furthest that it gets either way
// from where it began, never above and never below 0. Sure is false when the axis is known too badly to say
// on which side of it the target passes: the mount may as well turn the other way round.
type AzimuthTurn struct {
	By, Least, Most sky.Angle
	Sure            bool
}

// AzimuthTurn follows the target through a span.
//
// Source: own derivation: between two samples the azimuth turns by less than 180°, as Path has it of χ.
func (c *Course) AzimuthTurn(span Span) AzimuthTurn {
	turn := c.azimuthTurn(c.nominal.Axis(), span)
	turn.Sure = true
	if c.axes.known {
		return turn
	}
	outside := 1 / math.Cos(math.Pi/rimAxes) // the axes looked at are the corners of what holds all of them
	for i := range rimAxes {
		other := c.azimuthTurn(c.axes.at(outside, 2*math.Pi*float64(i)/rimAxes), span)
		turn.Sure = turn.Sure && (other.By-turn.By).Abs() < 180*sky.Degree
	}
	return turn
}

func (c *Course) azimuthTurn(axis sky.Direction, span Span) (turn AzimuthTurn) {
	tilted := tiltedFrame(axis)
	before := azimuthIn(tilted, c.track.At(span.From))
	for t := span.From; t.Before(span.To); {
		if t = t.Add(trackStep); t.After(span.To) {
			t = span.To
		}
		now := azimuthIn(tilted, c.track.At(t))
		turn.By += (now - before).Signed()
		turn.Least, turn.Most, before = min(turn.Least, turn.By), max(turn.Most, turn.By), now
	}
	return turn
}
