package checklist

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
)

// finite refuses an angle that is no number: it could not be written down.
func finite(what string, angles ...*sky.Angle) error {
	for _, a := range angles {
		if a != nil && (*a-*a) != 0 {
			return fmt.Errorf("%s is not a number; give it in degrees", what)
		}
	}
	return nil
}

// inDegrees returns an angle that may be unknown as bodies hold it.
func inDegrees(a *sky.Angle) *float64 {
	if a == nil {
		return nil
	}
	deg := a.Degrees()
	return &deg
}

func (a OpenNight) event(Night, *time.Location) (string, any, error) {
	body := NightOpenedBody{Kit: a.Kit, Target: a.Target}
	if a.Count.Boot != "" {
		body.Boot, body.BeganNs = a.Count.Boot, a.Count.Began.UnixNano()
	}
	return KindNightOpened, body, nil
}

func (a ChooseTarget) event(n Night, _ *time.Location) (string, any, error) {
	star := a.Target.Star
	if strings.TrimSpace(a.Target.Name) == "" {
		return "", nil, errors.New("the target has no name; give the one under which its frames are kept")
	}
	if err := finite("the target's place", &star.Place.RA, &star.Place.Dec, &star.Motion.RA, &star.Motion.Dec, a.Angle); err != nil {
		return "", nil, err
	}
	body := TargetChosenBody{
		Name: a.Target.Name, RADeg: star.Place.RA.Degrees(), DecDeg: star.Place.Dec.Degrees(),
		PMRAMasPerYr:  float64(star.Motion.RA / sky.MilliarcsecondPerYear),
		PMDecMasPerYr: float64(star.Motion.Dec / sky.MilliarcsecondPerYear),
		AngleDeg:      inDegrees(a.Angle),
	}
	// Compared as it will be read back: writing in degrees may change the last bit.
	if n.Subs != nil && (n.Target == nil || *n.Target != targetOf(body)) {
		return "", nil, errors.New("subs are being taken; say that they have stopped, then choose another target")
	}
	return KindTargetChosen, body, nil
}

func (a TurnOn) event(n Night, zone *time.Location) (string, any, error) {
	if n.DerotatorOn {
		return "", nil, fmt.Errorf("the derotator is already on since %s; to move it say rewound, to correct its angle give a reading",
			words.Minute(n.DerotatorSince, zone))
	}
	if err := finite("the derotator's angle", a.Angle); err != nil {
		return "", nil, err
	}
	return KindDerotatorOn, DerotatorOnBody{AngleDeg: inDegrees(a.Angle)}, nil
}

func (a TurnOff) event(n Night, zone *time.Location) (string, any, error) {
	switch {
	case !n.DerotatorOn && n.DerotatorSince.IsZero():
		return "", nil, errors.New("the derotator is off; it has not been on this night")
	case !n.DerotatorOn:
		return "", nil, fmt.Errorf("the derotator is off already since %s", words.Minute(n.DerotatorSince, zone))
	}
	if err := finite("the derotator's angle", a.Angle); err != nil {
		return "", nil, err
	}
	return KindDerotatorOff, DerotatorOffBody{AngleDeg: inDegrees(a.Angle)}, nil
}

func (a Rewound) event(Night, *time.Location) (string, any, error) {
	if err := finite("the derotator's angle", a.From, &a.To); err != nil {
		return "", nil, err
	}
	return KindRewound, RewoundBody{FromDeg: inDegrees(a.From), ToDeg: a.To.Degrees()}, nil
}

func (a Read) event(Night, *time.Location) (string, any, error) {
	if err := finite("the reading", &a.Angle); err != nil {
		return "", nil, err
	}
	return KindRead, ReadBody{AngleDeg: a.Angle.Degrees()}, nil
}

func (a StartSubs) event(n Night, zone *time.Location) (string, any, error) {
	switch {
	case !n.DerotatorOn:
		return "", nil, errors.New("the derotator is off; turn it on, see that it turns, say so, then start the subs")
	case n.Subs != nil && n.Subs.Filter == a.Filter:
		return "", nil, fmt.Errorf("subs are being taken already since %s; say that they have stopped first", words.Minute(n.Subs.Start, zone))
	}
	body := SubsStartedBody{Filter: a.Filter}
	for _, c := range a.Order {
		body.Order = append(body.Order, OrderPart(c))
	}
	return KindSubsStarted, body, nil
}

func (StopSubs) event(n Night, _ *time.Location) (string, any, error) {
	if n.Subs == nil {
		return "", nil, errors.New("no subs are being taken; say when they start")
	}
	return KindSubsStopped, SubsStoppedBody{}, nil
}

func (a MeasureAxis) event(Night, *time.Location) (string, any, error) {
	if err := finite("the axis tilt", &a.Tilt, &a.Toward, &a.Uncertainty); err != nil {
		return "", nil, err
	}
	switch {
	case a.Tilt < 0 || a.Tilt >= 90*sky.Degree:
		return "", nil, fmt.Errorf("an axis tilt of %s makes no sense; give 0° to 90° and the azimuth that the axis leans towards",
			words.DegreesAsRead(a.Tilt))
	case a.Uncertainty < 0:
		return "", nil, errors.New("the uncertainty of the axis tilt is below 0°; give its size")
	}
	body := AxisMeasuredBody{TiltDeg: a.Tilt.Degrees(), TowardDeg: a.Toward.Wrapped().Degrees(),
		UncertaintyDeg: a.Uncertainty.Degrees(), How: a.How, By: string(a.By)}
	if s := a.Spread; s != nil {
		if err := finite("the spread of the axis", &s.East, &s.North); err != nil {
			return "", nil, err
		}
		body.Spread = &SpreadBody{EastDeg: s.East.Degrees(), NorthDeg: s.North.Degrees(), Correlation: s.Correlation}
	}
	return KindAxisMeasured, body, nil
}

func (a DoStep) event(n Night, _ *time.Location) (string, any, error) {
	return KindStepDone, StepDoneBody{Step: a.Step, Loop: n.Loop()}, given(a.Step, "no step is named; give the id of one of the checklist")
}

func (a SkipStep) event(n Night, _ *time.Location) (string, any, error) {
	return KindStepSkipped, StepSkippedBody{Step: a.Step, Loop: n.Loop(), Reason: a.Reason},
		errors.Join(given(a.Step, "no step is named; give the id of one of the checklist"),
			given(a.Reason, "no reason is given; say in a few words why the step is left out"))
}

func (a FailStep) event(n Night, _ *time.Location) (string, any, error) {
	return KindStepFailed, StepFailedBody{Step: a.Step, Loop: n.Loop(), Note: a.Note},
		errors.Join(given(a.Step, "no step is named; give the id of one of the checklist"),
			given(a.Note, "no note is given; say in a few words what went wrong"))
}

// given refuses a text that says nothing.
func given(text, otherwise string) error {
	if strings.TrimSpace(text) == "" {
		return errors.New(otherwise)
	}
	return nil
}

func (a WriteNote) event(Night, *time.Location) (string, any, error) {
	if strings.TrimSpace(a.Text) == "" {
		return "", nil, errors.New("the note is empty; write something or leave it")
	}
	return KindNoted, NotedBody(a), nil
}

func (a NoticeJump) event(Night, *time.Location) (string, any, error) {
	if a.From.Equal(a.To) {
		return "", nil, errors.New("the clock has not jumped: it shows what it should")
	}
	return KindClockJumped, ClockJumpedBody{FromNs: a.From.UnixNano(), ToNs: a.To.UnixNano()}, nil
}

func (Undo) event(n Night, _ *time.Location) (string, any, error) {
	if n.Undoable == nil {
		return "", nil, errors.New("there is nothing to undo")
	}
	return KindUndone, UndoneBody{Ordinal: n.Undoable.Ordinal}, nil
}

func (Redo) event(n Night, _ *time.Location) (string, any, error) {
	if n.Redoable == nil {
		return "", nil, errors.New("there is nothing to redo: the last thing said was not an undo")
	}
	return KindUndone, UndoneBody{Ordinal: n.Redoable.Ordinal}, nil
}
