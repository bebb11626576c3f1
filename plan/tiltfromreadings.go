package plan

import (
	"fmt"
	"math"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
)

// TiltFit is the mount's axis as the derotator's readings during one run show it.
type TiltFit struct {
	Prior     kit.Axis
	Axis      kit.Axis    // Uncertainty holds 95 %; never more than Prior's
	Spread    Spread      // the covariance behind it
	Anchor    Anchor      // the last reading kept, with the angle that all of them say it was: run on from here
	Residuals []sky.Angle // reading minus fit, by reading as given, doubtful ones too, (−180°, 180°]
	RMS       sky.Angle   // of the residuals of the readings kept
	Doubtful  []int       // readings that are probably wrong and were left out, counted from 0, worst first
}

// fewestReadings is how many readings it takes: one fixes the angle at the start, and two more the two
// parts of the tilt.
const fewestReadings = 3

// FitTilt estimates the tilt of the mount's axis from three or more readings of the derotator during one
// run on the course's target, by least squares of reading minus m₀ + s·χ(t) with m₀ unknown.
//
// What was known before counts as well: the course's axis, its uncertainty taken as 95 %. Readings that say
// little, close in time or for a target on which the tilt acts as m₀ does, leave the axis where it was and as
// uncertain as it was.
// Given: the standard error of one reading. A reading further off than four of what the others allow is left
// out and named; of n readings at most n/3.
// With readings to 0.1° a run of an hour or two shows one part of the tilt well and the other hardly, so
// that the circle of Uncertainty often shrinks little while the ellipse of Spread does: see Spread.Rim.
// Range: tilts up to some 15°. Turns of the derotator by full circles between readings don't matter.
// Source: Gauss-Newton with halved steps; the project's handbook, section 5.
func (c *Course) FitTilt(readings []Anchor, readingError sky.Angle) (TiltFit, error) {
	if err := c.checkReadings(readings, readingError); err != nil {
		return TiltFit{}, err
	}
	all := c.readingsOf(readings, readingError)
	kept, doubtful := all.sound()
	solved := kept.solveHonestly()
	fit := TiltFit{Prior: c.Axis, Doubtful: doubtful}
	fit.Axis, fit.Spread = solved.axis()
	fit.Axis.Uncertainty = min(fit.Axis.Uncertainty, c.Axis.Uncertainty) // an axis known exactly stays so
	for i := range all.readings {
		fit.Residuals = append(fit.Residuals, all.residual(i, solved.at))
	}
	var sum float64
	for i := range kept.readings {
		r := kept.residual(i, solved.at)
		sum += float64(r * r)
		if !kept.readings[i].At.Before(fit.Anchor.At) {
			fit.Anchor = Anchor{kept.readings[i].At, kept.readings[i].Angle - r}
		}
	}
	fit.RMS = sky.Angle(math.Sqrt(sum / float64(len(kept.readings))))
	return fit, nil
}

func (c *Course) checkReadings(readings []Anchor, readingError sky.Angle) error {
	if len(readings) < fewestReadings {
		return fmt.Errorf("the tilt takes three readings of the derotator in one run, some twenty minutes apart, and there %s; note its angle again later", isOrAre(len(readings)))
	}
	if !(readingError > 0) || math.IsInf(float64(readingError), 0) {
		return fmt.Errorf("the error of a reading is %s; give how finely the derotator's angle can be read, as 0.1°", words.DegreesAsRead(readingError))
	}
	for i, r := range readings {
		if x := float64(r.Angle); math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("reading %d is no angle; give what the derotator shows, in degrees", i+1)
		}
		if !c.Span.Contains(r.At) {
			return fmt.Errorf("reading %d is of %s, outside the night from %s to %s; give readings of one run", i+1, utc(r.At), utc(c.Span.From), utc(c.Span.To))
		}
		if _, ok := sky.FieldAngle(c.frame.Pole(), c.track.At(r.At), sky.MountAxis(c.Axis.Tilt, c.Axis.Toward)); !ok {
			return fmt.Errorf("the target stood at the celestial pole or in the mount's axis at reading %d, where the field has no angle; give readings of another target", i+1)
		}
	}
	return nil
}

func isOrAre(n int) string {
	return [...]string{"are none", "is one", "are two"}[n]
}

// timedReading is a reading with where the target stood.
type timedReading struct {
	Anchor
	index  int // among the readings as given
	target sky.Direction
}

// tiltReadings is a least-squares problem: the readings of a run and what was known before.
type tiltReadings struct {
	readings []timedReading
	pole     sky.Direction
	sense    sky.Angle
	sigma    float64   // of a reading, rad
	prior    tiltState // the centre
	spread   float64   // σ of each part of the prior tilt, rad
}

// leastSpread keeps the weight of an axis that is known exactly finite: an arcsecond.
const leastSpread = 1 * sky.Arcsecond

func (c *Course) readingsOf(readings []Anchor, readingError sky.Angle) tiltReadings {
	p := tiltReadings{
		pole: c.frame.Pole(), sense: sky.Angle(c.Kit.Derotator.Sense), sigma: float64(readingError),
		spread: float64(max(c.Axis.Uncertainty/certainty, leastSpread)),
	}
	p.prior = tiltState{east: float64(c.Axis.Tilt) * c.Axis.Toward.Sin(), north: float64(c.Axis.Tilt) * c.Axis.Toward.Cos()}
	for i, r := range readings {
		p.readings = append(p.readings, timedReading{r, i, c.track.At(r.At)})
	}
	return p
}

// without returns the problem less one of its readings.
func (p tiltReadings) without(i int) tiltReadings {
	rest := append([]timedReading(nil), p.readings[:i]...)
	p.readings = append(rest, p.readings[i+1:]...)
	return p
}
