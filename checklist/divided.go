package checklist

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"duskhand/sky"
)

// KindDivided is the event of the rest of the night being divided among several targets, or no longer.
const KindDivided = "divided"

// DividedBody is the body of KindDivided: the targets with their weights and the subs of each filter that each
// had by then, the one that was being taken, and the derotator's angle if somebody knew it. No parts: each
// target has the night to itself again.
type DividedBody struct {
	Parts    []PartBody `json:"parts,omitempty"`
	Going    string     `json:"going,omitempty"`
	AngleDeg *float64   `json:"angle_deg,omitempty"`
}

// PartBody is one target of a divided night.
type PartBody struct {
	Target string         `json:"target"`
	Weight float64        `json:"weight"`
	Taken  map[string]int `json:"taken,omitempty"`
}

// Part is one target of a divided night: how much it is to get against the others, and how many subs of each
// filter it had when the night was divided.
type Part struct {
	Target string
	Weight float64
	Taken  map[string]int
}

// Division is how the rest of the night was divided last, from At on. Angle is nil if nobody knew it; Going is
// the target that was being taken, "" for none.
type Division struct {
	At    time.Time
	Parts []Part
	Going string
	Angle *sky.Angle
}

// DivideNight says that the rest of the night is divided among targets; without Parts, that it no longer is.
type DivideNight struct {
	Parts []Part
	Going string
	Angle *sky.Angle
}

// mostParts is as many targets as a night can hold with a break before each.
const mostParts = 6

func (a DivideNight) event(Night, *time.Location) (string, any, error) {
	body := DividedBody{Going: a.Going, AngleDeg: inDegrees(a.Angle)}
	if err := finite("the derotator's angle", a.Angle); err != nil {
		return "", nil, err
	}
	if len(a.Parts) == 1 || len(a.Parts) > mostParts {
		return "", nil, fmt.Errorf("a night can't be divided among %d targets; name two to %d", len(a.Parts), mostParts)
	}
	for _, p := range a.Parts {
		if strings.TrimSpace(p.Target) == "" || !(p.Weight > 0) || p.Weight > 1000 {
			return "", nil, errors.New("each target of a divided night needs its name and a weight above 0")
		}
		body.Parts = append(body.Parts, PartBody(p))
	}
	return KindDivided, body, nil
}

func (n *Night) divided(b DividedBody, at time.Time) {
	division := &Division{At: at, Going: b.Going, Angle: angle(b.AngleDeg)}
	for _, p := range b.Parts {
		division.Parts = append(division.Parts, Part(p))
	}
	n.Divided = division
}

func dividedWords(b DividedBody) string {
	if len(b.Parts) == 0 {
		return "night no longer divided"
	}
	names := make([]string, len(b.Parts))
	for i, p := range b.Parts {
		names[i] = p.Target
	}
	return "night divided among " + strings.Join(names, ", ")
}
