package checklist_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/guiding"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// guided is the example night with a stage of much travel, and the courses of both targets of these tests.
func guided(kind kit.Corrections) (kit.Kit, checklist.CourseOf) {
	k := kit.Example()
	k.Guide.Corrections = kind
	k.Derotator.Min, k.Derotator.Max = -170*sky.Degree, 170*sky.Degree
	night := plan.NewNight(k, plan.Date{Year: 2026, Month: time.December, Day: 5})
	courses := map[string]*plan.Course{}
	for _, target := range []checklist.Target{tarantula, orion} {
		courses[target.Name] = night.Course(kit.Target{Name: target.Name, Star: target.Star}, k.Axis)
	}
	return k, func(t *checklist.Target) *plan.Course {
		if t == nil {
			t = &tarantula
		}
		return courses[t.Name]
	}
}

// handOver is a night that is calibrated on one target and handed over to another with the derotator far away.
func handOver(t *testing.T) *story {
	return begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.TurnOn{Angle: deg(-55.7)}).
		say(2, checklist.GuidingCalibrated{}).say(3, checklist.GuidingOn{}).
		say(120, checklist.GuidingOff{}).say(121, checklist.ChooseTarget{Target: orion}).say(122, checklist.Rewound{To: *deg(100)})
}

func TestACalibrationDoesNotOutliveAHandOver(t *testing.T) {
	for kind, want := range map[kit.Corrections]guiding.Verdict{
		kit.TurnedCorrections: guiding.Holds, kit.AxesCorrections: guiding.Diverges, kit.SkyCorrections: guiding.Diverges,
	} {
		k, courseOf := guided(kind)
		s := handOver(t)
		angle, ok := s.night.GuideAngleAt(k, courseOf, minute(122))
		require.True(t, ok, kind)
		assert.Equal(t, want, angle.Verdict, kind)
		assert.True(t, angle.Certain())
		assert.False(t, angle.Ask, "the kit says what it is")
		assert.Equal(t, minute(2), angle.Calibrated.At)
		switch course := courseOf(&orion); kind {
		case kit.AxesCorrections:
			turned := courseOf(&tarantula).Angle(plan.Anchor{At: minute(1), Angle: *deg(-55.7)}, minute(2))
			assert.InDelta(t, (*deg(100) - turned).Degrees(), angle.Aged.Angle.Degrees(), 0.01)
			before := courseOf(&tarantula).AboutAxis(minute(2))
			assert.InDelta(t, course.AboutAxis(minute(122)).Cos()/before.Cos(), angle.Aged.Scale, 1e-9)
		case kit.SkyCorrections:
			was := courseOf(&tarantula).CameraAngle(*deg(-55.7), minute(1))
			assert.InDelta(t, (course.CameraAngle(*deg(100), minute(122)) - was).Signed().Degrees(), angle.Aged.Angle.Degrees(), 0.01)
		}
	}
}

func TestAnUnknownMountIsToldByItsChecks(t *testing.T) {
	k, courseOf := guided("")
	s := handOver(t)
	angle, ok := s.night.GuideAngleAt(k, courseOf, minute(122))
	require.True(t, ok)
	assert.Equal(t, kit.AllCorrections(), angle.Kinds)
	assert.Equal(t, guiding.Diverges, angle.Verdict)
	assert.False(t, angle.Certain())
	assert.True(t, angle.Ask)
	s.say(123, checklist.GuideChecked{Yes: true}) // it came back, with the stage 155° and the camera far off
	angle, ok = s.night.GuideAngleAt(k, courseOf, minute(124))
	require.True(t, ok)
	assert.Equal(t, []kit.Corrections{kit.TurnedCorrections}, angle.Kinds)
	assert.Equal(t, guiding.Holds, angle.Verdict)
	s.say(124, checklist.Undo{}).say(125, checklist.GuideChecked{})
	kinds, slip := s.night.GuideKinds(k, courseOf)
	assert.Equal(t, []kit.Corrections{kit.AxesCorrections, kit.SkyCorrections}, kinds)
	assert.False(t, slip)
	s.say(126, checklist.GuidingCalibrated{}).say(127, checklist.GuideChecked{}) // it went off right after a calibration
	kinds, slip = s.night.GuideKinds(k, courseOf)
	assert.Equal(t, kit.AllCorrections(), kinds)
	assert.True(t, slip, "that is no mount at all")
}

func TestALongRunOutgrowsACalibrationOfAxes(t *testing.T) {
	k, courseOf := guided(kit.AxesCorrections)
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.TurnOn{Angle: deg(-100)}).say(2, checklist.GuidingCalibrated{})
	end := s.night.GuideHoldsUntil(k, courseOf, minute(2), minute(500))
	require.True(t, end.OK)
	before, _ := s.night.GuideAngleAt(k, courseOf, end.At.Add(-time.Minute))
	after, _ := s.night.GuideAngleAt(k, courseOf, end.At.Add(time.Minute))
	assert.Equal(t, guiding.Holds, before.Verdict)
	assert.Equal(t, guiding.Again, after.Verdict)
	k.Guide.Corrections = kit.SkyCorrections
	assert.False(t, s.night.GuideHoldsUntil(k, courseOf, minute(2), minute(500)).OK, "the camera angle stays within a run")
	k.Guide.Corrections = ""
	assert.Equal(t, end, s.night.GuideHoldsUntil(k, courseOf, minute(2), minute(500)), "of several kinds the first to fail")
	s.say(10, checklist.Read{Angle: *deg(-90)}) // what was read holds for the whole run: the calibration too was made there
	later, ok := s.night.GuideAngleAt(k, courseOf, minute(10))
	require.True(t, ok)
	assert.Less(t, later.Aged.Angle.Abs().Degrees(), 5.0)
}

func TestNothingIsSaidOfAnAngleThatNobodyKnows(t *testing.T) {
	k, courseOf := guided(kit.AxesCorrections)
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula})
	_, ok := s.night.GuideAngleAt(k, courseOf, minute(1))
	assert.False(t, ok, "no calibration")
	s.say(1, checklist.TurnOn{}).say(2, checklist.GuidingCalibrated{})
	_, ok = s.night.GuideAngleAt(k, courseOf, minute(3))
	assert.False(t, ok, "nobody said where the stage stood")
	assert.False(t, s.night.GuideHoldsUntil(k, courseOf, minute(3), minute(100)).OK)
}

func TestACalibrationWithTheStageParked(t *testing.T) {
	k, courseOf := guided(kit.AxesCorrections)
	s := begin(t).say(0, checklist.ChooseTarget{Target: tarantula}).say(1, checklist.Rewound{To: *deg(10)}).say(2, checklist.GuidingCalibrated{}).
		say(3, checklist.Rewound{To: *deg(-20)})
	angle, ok := s.night.GuideAngleAt(k, courseOf, minute(3))
	require.True(t, ok)
	assert.InDelta(t, -30, angle.Aged.Angle.Degrees(), 1e-9)
	next, ok := s.night.GuideAngleIn(k, courseOf, guiding.PoseAt(courseOf(&orion), *deg(15), minute(60)))
	require.True(t, ok)
	assert.InDelta(t, 5, next.Aged.Angle.Degrees(), 1e-9)
}
