package ask

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky"
)

// mostFrames bounds how many frames one question may lay over each other: far more than a season's runs,
// and answered in milliseconds.
const mostFrames = 1000

// overlapQuestion is about frames of one size, turned about their centre: how much of one is in all.
type overlapQuestion struct {
	header
	Width  *float64   `json:"width_deg"`
	Height *float64   `json:"height_deg"`
	Angles []*float64 `json:"angles_deg"`
}

type overlapAnswer struct {
	Fraction float64 `json:"fraction"`
}

func (q *overlapQuestion) answer(*sky.Frames) (any, error) {
	const least, most = 1e-6, 180 // degrees in the tangent plane, where only the ratio matters
	width, err := within("width_deg", q.Width, least, most, "of one frame")
	if err != nil {
		return nil, err
	}
	height, err := within("height_deg", q.Height, least, most, "of one frame")
	if err != nil {
		return nil, err
	}
	if n := len(q.Angles); n < 1 || n > mostFrames {
		return nil, fmt.Errorf("\"angles_deg\" holds %d angles; give 1 to %d, as [102.5,134.5]: the camera angle of each frame", n, mostFrames)
	}
	angles := make([]sky.Angle, len(q.Angles))
	for i, given := range q.Angles {
		angle, err := within(fmt.Sprintf("angles_deg[%d]", i), given, -3600, 3600, "from north through east")
		if err != nil {
			return nil, err
		}
		angles[i] = degrees(angle)
	}
	return overlapAnswer{plan.Overlap(degrees(width), degrees(height), angles).Share}, nil
}
