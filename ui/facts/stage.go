package facts

import (
	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/frames/stage"
	"duskhand/checklist/tally"
	"duskhand/plan"
)

// StageSlips is the alert of a stage that slips, sticks or turns the wrong way.
const StageSlips AlertKind = "stage slips"

// courses returns the course of each run of the night.
func (t *Tonight) courses() []*plan.Course {
	courses := make([]*plan.Course, len(t.Log.Runs))
	for i, run := range t.Log.Runs {
		courses[i] = t.CourseOf(tally.Chosen(t.Kit, t.Log, run.Target))
	}
	return courses
}

// followStage finds what the stage does in the run that goes on, by its placed lights.
func (t *Tonight) followStage() stage.Finding {
	last := len(t.Log.Runs) - 1
	if last < 0 || !t.Log.Runs[last].Open {
		return stage.Finding{Kind: stage.TooFew, Run: -1}
	}
	var lights []stage.Seen
	for _, l := range stage.SeenOf(t.Log, t.Course) {
		if l.Run == last {
			lights = append(lights, l)
		}
	}
	return stage.Follow(lights, t.Course)
}

// Stage is what the placed lights of the run that goes on say of the stage.
func (r Run) Stage() stage.Finding { return r.Tonight.stage }

// slipCalls is for how many lights after a slip it is told: what they show is turned, and then goes on well.
const slipCalls = 4

func (r Run) stageSlips() Alert {
	f := r.Stage()
	a := Alert{Kind: StageSlips}
	switch f.Kind {
	case stage.Sticks, stage.Backwards:
		a.Level = advice.Calling
	case stage.Slipped, stage.Turned:
		if f.After <= slipCalls {
			a.Level = advice.Warning
		}
	}
	return a
}

// LearnFromFrames fits axis, zero and sense to the night's placed lights and readings. The actions are what is known
// better by it, none if it is not by much.
func (t *Tonight) LearnFromFrames() []checklist.Action {
	fit, ok := stage.FitNight(t.Log, t.Kit, t.courses(), t.Course)
	if !ok {
		return nil
	}
	var actions []checklist.Action
	if axis := fit.Axis; axis != nil {
		axis.How = checklist.HowByLights(fit.Lights, fit.Readings)
		actions = append(actions, *axis)
	}
	if fit.Zero != nil {
		actions = append(actions, *fit.Zero)
	}
	return actions
}
