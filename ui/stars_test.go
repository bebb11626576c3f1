package ui_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/ui"
)

// readouts are what the axes of a mount that leans by tilt towards an azimuth show with a star centred, as
// it is typed: testdata/reference/README.md, "tiltfit.csv", with the azimuth zero given. The star is seen
// through the example's air.
func readouts(t *testing.T, name string, at time.Time, tilt, toward, zero sky.Angle) string {
	t.Helper()
	k := kit.Example()
	star, err := catalog.Find(name)
	require.NoError(t, err)
	frame := sky.NewFrame(k.Site.Place, at, 0)
	place := frame.Horizontal(frame.Fix(star.Star), at)
	place.Altitude += sky.Air{PressureHPa: k.Site.PressureHPa, TemperatureC: k.Site.TemperatureC}.Refraction(place.Altitude)
	v := place.Direction()
	s, c, k1 := toward.Sin(), toward.Cos(), 1-tilt.Cos()
	x := sky.Direction{X: 1 - k1*s*s, Y: -k1 * s * c, Z: -tilt.Sin() * s}
	y := sky.Direction{X: -k1 * s * c, Y: 1 - k1*c*c, Z: -tilt.Sin() * c}
	z := sky.Direction{X: tilt.Sin() * s, Y: tilt.Sin() * c, Z: tilt.Cos()}
	altitude := sky.Angle(math.Asin(v.Dot(z)))
	azimuth := sky.Angle(math.Atan2(v.Dot(x), v.Dot(y))) + zero
	return fmt.Sprintf("%s %.4f %.4f", name, altitude.Degrees(), azimuth.Wrapped().Degrees())
}

// typed turns a line into key presses.
func typed(line string) []string {
	var keys []string
	for _, r := range line {
		if r == ' ' {
			keys = append(keys, "space")
		} else {
			keys = append(keys, string(r))
		}
	}
	return append(keys, "enter")
}

// own opens a night of one's own in which the axis is not known, with nothing said yet.
func own(t *testing.T, width, height int) *session {
	return ownOf(t, width, height, func(*kit.Kit) {})
}

// ownOf is own with a kit that has been changed.
func ownOf(t *testing.T, width, height int, change func(*kit.Kit)) *session {
	k := kit.Example()
	k.Example = false
	k.Axis = kit.Axis{Uncertainty: 3 * sky.Degree}
	change(&k)
	path := t.TempDir() + "/journal.db"
	s := start(t, width, height, func(c *ui.Config) { c.Kit, c.JournalPath = k, path })
	return s.sees("steps of this stage left").press("1") // a new night opens at its steps; on to the Run screen
}

func TestTwoStarsShowsThePairAndItsList(t *testing.T) {
	s := start(t, 120, 40, nil)
	s.press("tab", "tab").sees("then Achernar", "to be sure", "apart", "error", "NGC 2070")
	first := s.text()
	s.press("down")
	assert.NotEqual(t, first, s.text(), "the drawing follows the list")
	s.press("up")
	assert.Equal(t, first, s.text())
}

// Two sights give the axis, and the countdown's bounds shrink at once.
func TestSightsShrinkTheBounds(t *testing.T) {
	s := own(t, 120, 40)
	s.press("space").sees("turned on at 23:14")
	wide := s.text()
	s.press("tab", "tab")
	for _, star := range []string{"Sirius", "Achernar"} {
		s.press("x").press(typed(readouts(t, star, s.now, 3.2*sky.Degree, 75*sky.Degree, 200*sky.Degree))...)
	}
	s.sees("tilt 3.20° toward azimuth 75°", "the limit's bounds are", "before")
	s.press("1").sees("axis tilt 3.2° toward east-north-east ± 0.04°")
	assert.NotEqual(t, wide, s.text())
	s.press("u").sees("axis tilt 0.0°", "undo: sight of Achernar")
}

func TestWrongStarIsNoticed(t *testing.T) {
	s := own(t, 120, 40)
	s.press("tab", "tab")
	s.press("x").press(typed(readouts(t, "Achernar", s.now, 2*sky.Degree, 20*sky.Degree, 0))...)
	// The operator says Sirius and stands on Canopus.
	wrong := readouts(t, "Canopus", s.now, 2*sky.Degree, 20*sky.Degree, 0)
	s.press("x").press(typed("Sirius" + wrong[len("Canopus"):])...)
	s.sees("Sirius", "Canopus").seesNot("axis tilt 2.0°")
}

func TestSightsAskInWords(t *testing.T) {
	s := own(t, 120, 40)
	s.press("tab", "tab")
	s.press("x").press(typed("37")...).sees("give two numbers in degrees")
	s.press("esc", "x").press(typed("Sirus 37 104")...).sees("Sirius")
	s.press("esc", "l").press(typed("2.4 210")...).sees("tilt 2.40° toward azimuth 210° ± 0.50°")
	s.press("l").press(typed("40 210")...).sees("give a slope from 0 to 15°")
}

// Three readings in one run tell of the axis, and it is said what they changed.
func TestReadingsTeachTheAxis(t *testing.T) {
	s := own(t, 120, 40)
	s.press("space").wait(time.Minute).press("space")
	for _, angle := range []string{"-7.3", "1.9"} {
		s.wait(30 * time.Minute)
		s.press("a").press(typed(angle)...)
	}
	s.sees("The axis: tilt", "the limit's bounds are")
	s.press("esc").sees("undo: axis tilt") // any key takes the notice away
}

// The focus holds within a zone; a tube that cools uses it up, and the screen says when.
func TestFocusIsUsedUpByTheCold(t *testing.T) {
	s := own(t, 120, 40)
	s.press("tab", "tab", "tab").sees("for both telescopes", "main: focus holds within ±48 µm", "say when it is focused")
	s.press("f").press(typed("18")...).sees("0 % used")
	s.wait(30 * time.Minute)
	s.press("c").press(typed("16.5")...).sees("% used, good from", "as it cools, until")
	s.wait(60 * time.Minute)
	s.press("c").press(typed("9")...).sees("FOCUS AGAIN: 9.0 °C now, 18.0 °C when it was")
	s.press("c").press(typed("warm")...).sees("give one number, the temperature in °C")
}

// In the afternoon no two stars will do, and it is said why.
func TestNoPairBySunlight(t *testing.T) {
	s := own(t, 120, 40)
	s.now = time.Date(2026, 12, 5, 7, 0, 0, 0, time.UTC) // 17:30 at the site
	s.send(s.model.Tick())
	s.press("tab", "tab").sees("No two stars will do now", "the Sun is up")
	s.press("tab").sees("No star to focus on now")
}

// opensOwn opens a night of a kit at an instant, with nothing said yet.
func opensOwn(t *testing.T, k kit.Kit, at time.Time) *session {
	path := t.TempDir() + "/journal.db"
	return startWith(&session{t: t, now: at}, 120, 40, func(c *ui.Config) { c.Kit, c.JournalPath = k, path })
}
