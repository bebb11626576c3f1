package command

import (
	"fmt"
	"time"

	"duskhand/plan"
	"duskhand/plan/ask"
	"duskhand/plan/choose"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/keys"
)

// otherKinds are the requests that take a kit, which package ask knows nothing of.
func otherKinds() ask.Others {
	return ask.Others{
		"schedule": func() ask.Question { return &scheduleQuestion{} },
		"advice":   func() ask.Question { return &adviceQuestion{} },
	}
}

// scheduleQuestion asks for the plan of one target of a kit, for the axis of the kit or another.
type scheduleQuestion struct {
	ask.Header
	Kit    *string `json:"kit_toml"`
	Date   *string `json:"date"`
	Target *string `json:"target"`
	Axis   *struct {
		Tilt        float64 `json:"tilt_deg"`
		Toward      float64 `json:"toward_az_deg"`
		Uncertainty float64 `json:"uncertainty_deg"`
	} `json:"axis"`
}

// Answer returns what plan --json gives for the target.
func (q *scheduleQuestion) Answer() (any, error) {
	if q.Kit == nil || q.Date == nil {
		return nil, fmt.Errorf("\"kit_toml\" and \"date\" are needed; give the text of a kit file, and the date of the evening as 2026-12-05")
	}
	k, err := kit.Read([]byte(*q.Kit), "kit_toml", keys.Check)
	if err != nil {
		return nil, err
	}
	date, err := plan.ParseDate(*q.Date)
	if err == nil {
		err = withinYears("\"date\"", date.Year)
	}
	if err != nil {
		return nil, fmt.Errorf("\"date\": %w", err)
	}
	target := k.Targets[0]
	if q.Target != nil {
		if target, err = k.FindTarget(*q.Target); err != nil {
			return nil, fmt.Errorf("\"target\": %w", err)
		}
	}
	if err := q.axis(&k.Axis); err != nil {
		return nil, err
	}
	night := plan.NewNight(k, date)
	one := planTarget(night, night.Course(target, k.Axis), target)
	p := planned{night: night, moons: choose.NewNight(night, k.Axis, nil)}
	answer := scheduleAnswer{targetJSON: targetOf(p, one, words.WallOf(night.Span.From, night.Span.To, time.UTC)), Count: len(one.runs.Rewinds)}
	answer.Designation = answer.targetJSON.ID
	return answer, nil
}

// scheduleAnswer is a target of plan --json; its designation gives way to the request's id.
type scheduleAnswer struct {
	targetJSON
	ID          *string `json:"id,omitempty"` // never set: what is in front is the request's
	Designation *string `json:"designation" doc:"main designation, null with coordinates of the kit's own"`
	Count       int     `json:"rewind_count" doc:"how many rewinds"`
}

// axis sets the axis that is asked for, if one is.
func (q *scheduleQuestion) axis(axis *kit.Axis) error {
	a := q.Axis
	if a == nil {
		return nil
	}
	if a.Tilt < 0 || a.Tilt > 90 || a.Uncertainty < 0 || a.Uncertainty > 15 || a.Toward < -360 || a.Toward > 360 {
		return fmt.Errorf("\"axis\" is out of range; give \"tilt_deg\" from 0 to 90, \"toward_az_deg\" from -360 to 360, \"uncertainty_deg\" from 0 to 15")
	}
	degrees := func(x float64) sky.Angle { return sky.Angle(x) * sky.Degree }
	*axis = kit.Axis{Tilt: degrees(a.Tilt), Toward: degrees(a.Toward), Uncertainty: degrees(a.Uncertainty)}
	return nil
}
