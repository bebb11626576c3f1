package checklist

import (
	"errors"
	"slices"
	"time"

	"duskhand/checklist/journal"
)

// KindGuideCheck is the event of somebody having watched what a correction of the guiding does to the star.
const KindGuideCheck = "guide-check"

// GuideCheckBody is the body of KindGuideCheck.
type GuideCheckBody struct {
	Back bool `json:"star_moved_back"`
}

// GuideChecked says whether a correction was seen to move the star back.
type GuideChecked struct{ Yes bool }

func (a GuideChecked) event(n Night, _ *time.Location) (string, any, error) {
	if _, calibrated := n.Guiding.Calibration(); !calibrated {
		return "", nil, errors.New("no calibration of the guiding has been said tonight; calibrate it and say so, then check it")
	}
	return KindGuideCheck, GuideCheckBody{Back: a.Yes}, nil
}

func guideCheckRow() row {
	return row{kind: KindGuideCheck, change: with((*Night).guideChecked), words: guideCheckWords, proof: true, inLoop: true}
}

// guideChecked keeps the answer with the calibration that it is about. A star that went off asks for another one.
func (n *Night) guideChecked(b GuideCheckBody, at time.Time) {
	if !b.Back {
		n.prove(ProofGuideOff, at)
	}
	if calibration, ok := n.Guiding.Calibration(); ok {
		check := GuideCheck{Now: n.stood(at), Calibrated: calibration, Yes: b.Back}
		n.Guiding.Checks = append(slices.Clip(n.Guiding.Checks), check)
	}
}

func guideCheckWords(e journal.Event) string {
	return said(e, func(b GuideCheckBody) string {
		if b.Back {
			return "guiding checked: the star came back"
		}
		return "guiding checked: the star went off"
	})
}
