package ui_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/testdata/simulate"
	"duskhand/checklist/subs/watch"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui"
)

// capturing is a night of one's own in which a capture computer takes subs of the Tarantula's field, drawn as a
// good measurement finds them. What watches the folder is led by the test.
type capturing struct {
	*session
	field   *simulate.Field
	course  *plan.Course
	n       int
	behind  time.Duration // by how much the capture computer's clock is behind ours
	undated bool          // its frames do not say when they began
	angle   *sky.Angle    // at which its lights are placed by their stars; nil when they are not
}

func capture(t *testing.T) *capturing {
	s, k := watched(t)
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	s.press("1", "space").sees("start the subs")
	return &capturing{session: s, field: simulate.NewField(simulate.Small(7)), course: night.Course(k.Targets[0], k.Axis)}
}

// watched is such a night before anything happens.
func watched(t *testing.T) (*session, kit.Kit) {
	k := kit.Example()
	k.Example = false
	k.Watch.Folders = []string{"/subs"}
	path := t.TempDir() + "/journal.db"
	s := &session{t: t, now: time.Date(2026, 12, 5, 11, 20, 0, 0, time.UTC)}
	startWith(s, 120, 40, func(c *ui.Config) {
		c.Kit, c.JournalPath = k, path
		c.Watch = func(context.Context, watch.Settings) (<-chan watch.Report, error) {
			ended := make(chan watch.Report)
			close(ended)
			return ended, nil
		}
	})
	return s, k
}

// sub takes one light of two minutes and hands it over.
func (c *capturing) sub(turned simulate.Turning) *capturing {
	c.n++
	shot := simulate.Shot{Start: c.now, Exposure: 2 * time.Minute, Filter: "R", Turned: turned}
	exposure := shot.Exposure
	seen := c.field.Seen(shot)
	start := c.now.Add(-c.behind)
	header := subs.Header{Start: &start, Exposure: &exposure, Filter: "R", Object: "NGC 2070", Kind: subs.Light, BinX: 1, BinY: 1, Width: 1000, Height: 700}
	if c.undated {
		header.Start = nil
	}
	c.pass(exposure).pass(4 * time.Second)
	var placed *checklist.PlacedBody
	if c.angle != nil {
		middle := c.course.Target.Star.Place
		placed = &checklist.PlacedBody{Near: "NGC 2070", RADeg: middle.RA.Degrees(), DecDeg: middle.Dec.Degrees() - 0.2,
			CameraAngleDeg: c.angle.Degrees(), AngleErrorDeg: 0.003, ScaleArcsec: 2, StarsMatched: 40}
	}
	c.send(ui.Reported(arrival.Frame{
		File: arrival.File{Path: fmt.Sprintf("/subs/R_%03d.fits", c.n), Size: 1_402_560, Changed: c.now.Add(-3*time.Second - c.behind)}, Seen: c.now, Late: time.Second,
		Header: header, Placed: placed,
		Measured: &subs.Measured{Background: 800, Noise: 20, Count: len(seen), Stars: seen, HFD: 2.6, Elongation: 1.1},
	}))
	return c
}

// The feature that saves nights: with no key pressed the subs are counted, and the field's turning is called
// within two subs of its beginning.
func TestSubsAreCountedAndTheTurningFieldIsCalled(t *testing.T) {
	c := capture(t)
	c.sub(nil).sees("NGC 2070", "u undo: subs started") // the first light says that they are being taken
	for range 5 {
		c.sub(nil)
	}
	c.press("6").sees("The field holds still", "run 1").press("1").sees("R 6/40")
	assert.Zero(t, bells(c.session))
	off := simulate.Off(c.course, c.now)
	c.sub(off).sub(off).wait(2 * time.Second)
	c.press("1").sees("as it would with the derotator off")
	assert.Equal(t, 1, bells(c.session))
	c.press(alarmsKey).sees("field turns  since")
	c.press("6").sees("see that it is on")
}

// A slip of the stage between two lights is named and rings once, and the Frame screen says how far off the telescope
// looks with nothing typed.
func TestPlacedLightsNameASlip(t *testing.T) {
	c := capture(t)
	angle := 50 * sky.Degree
	c.angle = &angle
	for range 5 {
		c.sub(nil)
	}
	assert.Zero(t, bells(c.session))
	c.resize(200, 50)
	c.press("5").sees("By the stars of 2", "it looks 12.0′ off, camera angle 50.00°;", "nudge azimuth").press("1")
	angle += 0.3 * sky.Degree
	c.sub(nil).sub(nil).wait(2 * time.Second)
	assert.Equal(t, 1, bells(c.session))
	c.press(alarmsKey).sees("stage slips  since", "the stage slipped by 0.30°")
}

// A camera that turned at one go is no field that creeps: Subs says that it turned, and Frame counts no sub by a rate
// that nothing has.
func TestATurnAtOneGoIsNoRate(t *testing.T) {
	c := capture(t)
	for range 5 {
		c.sub(nil)
	}
	c.sub(func(time.Time) sky.Angle { return 4 * sky.Degree })
	c.resize(200, 50)
	c.press("6").sees("The camera turned by 4.0° between two lights")
	c.press("5").sees("Without derotation").seesNot("left over")
}

// The capture computer's clock may be wrong, or its frames undated: our own clock tells which run they are of. Two
// lights can be compared, and the second of those in a row that say so rings.
func TestTheTurningFieldIsCalledWhateverTheCaptureComputersClockShows(t *testing.T) {
	for name, change := range map[string]func(*capturing){
		"its clock is an hour behind":       func(c *capturing) { c.behind = time.Hour },
		"its clock is an hour ahead":        func(c *capturing) { c.behind = -time.Hour },
		"its frames do not say when":        func(c *capturing) { c.undated = true },
		"nor is the folder's clock right":   func(c *capturing) { c.undated, c.behind = true, time.Hour },
		"its clock shows ten hours earlier": func(c *capturing) { c.behind = 10*time.Hour + 30*time.Minute },
	} {
		t.Run(name, func(t *testing.T) {
			c := capture(t)
			change(c)
			off := simulate.Off(c.course, c.now)
			c.press("s")
			for light := 1; light <= 3; light++ {
				assert.Zero(t, bells(c.session), "before light %d", light)
				c.sub(off)
			}
			c.wait(2 * time.Second)
			assert.Equal(t, 1, bells(c.session))
			c.press("6").sees("see that it is on").seesNot("none of this run compared yet")
			c.press("1").sees("as it would with the derotator off")
		})
	}
}

// A test shot before the first run belongs to none, and nobody knows of which target it is.
func TestAFrameOutsideTheRunsOfAnUnknownTargetIsShown(t *testing.T) {
	s, _ := watched(t)
	s.send(ui.Reported(arrival.Frame{File: arrival.File{Path: "/subs/IMG_0001.cr2", Size: 24e6, Changed: s.now}, Seen: s.now,
		Unread: "it is no FITS file"}))
	s.press("6").sees("?: ? 1 × 0", "not read: it is no FITS file")
}

// A night's frames stay in the journal: opened again, the program knows them.
func TestArrivedSubsSurviveTheProgram(t *testing.T) {
	k := kit.Example()
	assert.NotEmpty(t, k.Targets)
	c := capture(t)
	c.sub(nil).sub(nil)
	before := c.press("6").text()
	config := c.model.Config()
	require := c.model.Close()
	assert.NoError(t, require)
	again := startWith(&session{t: t, now: c.now}, 120, 40, func(to *ui.Config) { *to = config })
	again.press("6")
	assert.Equal(t, before, again.text())
}

func TestSubsScreenSaysWhenNothingIsWatched(t *testing.T) {
	own(t, 120, 40).press("6").sees("watch.folders")
	start(t, 120, 40, nil).press("6").sees("The field holds still", "half-flux", "stars", "sky ADU", "elongation", "turning", "run 1")
}

// A sequence that stopped is missed.
func TestASilentSequenceIsCalled(t *testing.T) {
	c := capture(t)
	c.sub(nil).sub(nil)
	c.pass(3 * time.Minute).wait(30 * time.Second)
	assert.Zero(t, bells(c.session))
	c.pass(4 * time.Minute).wait(30 * time.Second)
	assert.Equal(t, 1, bells(c.session))
	c.press("1").sees("No new sub since 21:").press(alarmsKey).sees("no new sub   since").press("6").sees("has the sequence stopped?")
}

// The seconds at which the program looks may be any: no multiple of ten among them here.
func TestASilentSequenceIsCalledAtAnySecond(t *testing.T) {
	c := capture(t)
	c.pass(5 * time.Second)
	c.sub(nil).sub(nil)
	c.wait(4 * time.Minute) // in steps of ten seconds
	assert.NotZero(t, c.now.Second()%10)
	assert.Zero(t, bells(c.session))
	c.wait(90 * time.Second) // due twice 136 s after the last, at 4:32
	assert.Equal(t, 1, bells(c.session))
}

// A window that only follows the journal calls a silent sequence too, and is quiet again when frames come.
func TestAFollowerMissesTheFrames(t *testing.T) {
	c := capture(t)
	c.sub(nil).sub(nil)
	follower := &session{t: t, now: c.now}
	config := c.model.Config()
	startWith(follower, 120, 40, func(to *ui.Config) {
		own := *to
		*to = config
		to.Clock, to.Out = own.Clock, own.Out
	})
	follower.sees("FOLLOWING").press("esc", alarmsKey).sees("nothing calls")
	follower.wait(330 * time.Second)
	assert.Equal(t, 1, bells(follower))
	follower.sees("no new sub   since")
	c.pass(6 * time.Minute)
	c.sub(nil)
	follower.now = c.now
	follower.wait(20 * time.Second).sees("nothing calls")
}
