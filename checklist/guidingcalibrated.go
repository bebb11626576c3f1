package checklist

import (
	"slices"
	"time"
)

// KindGuidingCalibrated is the event of the guiding having been calibrated, the telescope standing as it does.
// Its body is empty: how it stood follows from the events before.
const KindGuidingCalibrated = "guiding-calibrated"

// GuidingCalibrated says that the guiding has just been calibrated.
type GuidingCalibrated struct{}

func (GuidingCalibrated) event(Night, *time.Location) (string, any, error) {
	return KindGuidingCalibrated, struct{}{}, nil
}

func guidingCalibratedRow() row {
	return row{kind: KindGuidingCalibrated, change: with((*Night).guidingCalibrated), words: plainWords("guiding calibrated"), proof: true}
}

func (n *Night) guidingCalibrated(_ struct{}, at time.Time) {
	n.Guiding.Calibrations = append(slices.Clip(n.Guiding.Calibrations), n.stood(at))
}
