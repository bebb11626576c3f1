package plan

import (
	"fmt"
	"math"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
)

// nearestSights is how near two stars may stand, or to being opposite, and still fix the attitude: at 5°
// a centring error already counts twelvefold. leastMoved is the same for the readouts, which the mount
// repeats to a fraction of a degree: below it, it has not been moved.
const (
	nearestSights = 5 * sky.Degree
	leastMoved    = 1 * sky.Degree
	sameStar      = 0.5 * sky.Degree
)

// oneNight is how far from the frame's middle a sight may lie.
const oneNight = 24 * time.Hour

const apartAdvice = "choose two stars 30° to 150° apart"

func (s Sight) called(i int) string {
	if s.Name != "" {
		return s.Name
	}
	return fmt.Sprintf("star %d", i+1)
}

func checkSights(frame *sky.Frame, sights []Sight) error {
	switch len(sights) {
	case 0:
		return fmt.Errorf("there are no sights; centre two stars 30° to 150° apart and note what both axes of the mount read at each")
	case 1:
		return fmt.Errorf("there is one sight, of %s, and the mount may still be turned any way about that star; centre a second one 30° to 150° away", sights[0].called(0))
	}
	for i, s := range sights {
		if err := checkSight(frame, s, s.called(i)); err != nil {
			return err
		}
	}
	return nil
}

func checkSight(frame *sky.Frame, s Sight, name string) error {
	alt, az := s.Readout.Altitude.Degrees(), s.Readout.Azimuth.Degrees()
	if !(math.Abs(alt) <= 90) { // written so that NaN fails too
		return fmt.Errorf("the mount's altitude at %s is %s; give what that axis reads, −90° to 90°", name, words.DegreesAsRead(s.Readout.Altitude))
	}
	if math.IsNaN(az) || math.IsInf(az, 0) {
		return fmt.Errorf("the mount's azimuth at %s is %g; give what that axis reads, in degrees", name, az)
	}
	if s.At.Sub(frame.Middle()).Abs() > oneNight {
		return fmt.Errorf("the sight of %s is of %s, more than a day from %s; give sights of one night, with the mount left where it stands", name, utc(s.At), utc(frame.Middle()))
	}
	if altitude := frame.Horizontal(frame.Fix(s.Star), s.At).Altitude; altitude < -1*sky.Degree {
		return fmt.Errorf("%s stood %s below the horizon at %s; check which star it was, the time, the date and the site", name, words.Degrees(-altitude, 0), utc(s.At))
	}
	return nil
}

func utc(t time.Time) string { return words.DateMinute(t, time.UTC) + " UTC" }

// checkGeometry tells whether two of the sights are far enough from the same and from opposite, in the
// sky and by the readouts.
func (s seen) checkGeometry(sights []Sight) error {
	i, j, apart := widest(s.over)
	first, second := sights[i].called(i), sights[j].called(j)
	sep := s.over[i].Separation(s.over[j])
	switch {
	case sep < sameStar && first == second:
		return fmt.Errorf("%s was sighted twice, which counts as one sight; centre a second star 30° to 150° away", first)
	case sep < sameStar:
		return fmt.Errorf("%s and %s are the same star, or as good as; %s", first, second, apartAdvice)
	case apart < nearestSights && sep < 90*sky.Degree:
		return fmt.Errorf("%s and %s are only %s apart, too near to tell how the mount is turned; %s", first, second, words.Degrees(sep, 1), apartAdvice)
	case apart < nearestSights:
		return fmt.Errorf("%s and %s are %s apart, nearly opposite, so the mount may be turned any way about the line between them; %s", first, second, words.Degrees(sep, 1), apartAdvice)
	}
	i, j, apart = widest(s.mount)
	if apart < leastMoved {
		return fmt.Errorf("the readouts at %s and %s are %s apart, the stars %s; type what the mount's axes read with each star centred", sights[i].called(i), sights[j].called(j), words.Degrees(s.mount[i].Separation(s.mount[j]), 1), words.Degrees(s.over[i].Separation(s.over[j]), 1))
	}
	return nil
}

// widest returns the two directions that are furthest from both the same and opposite, the earlier
// first, and how far.
func widest(directions []sky.Direction) (first, second int, apart sky.Angle) {
	second, apart = 1, -1
	for j := range directions {
		for i := range j {
			sep := directions[i].Separation(directions[j])
			if here := min(sep, 180*sky.Degree-sep); here > apart {
				first, second, apart = i, j, here
			}
		}
	}
	return first, second, apart
}
