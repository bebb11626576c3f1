package checklist

import (
	"errors"
	"time"

	"duskhand/checklist/journal"
	"duskhand/sky"
	"duskhand/sky/words"
)

// KindZeroMeasured is the event of the camera's angle at the derotator's reading 0 having been fitted.
const KindZeroMeasured = "zero-measured"

// ZeroMeasuredBody is the body of KindZeroMeasured: the angle of the chip's up from the mount's up at reading 0, and
// one σ.
type ZeroMeasuredBody struct {
	AngleDeg float64 `json:"angle_deg"`
	ErrorDeg float64 `json:"error_deg"`
}

// MeasureZero says where the chip's up is from the mount's up while the derotator reads 0, and one σ of that.
type MeasureZero struct{ Angle, Error sky.Angle }

func (a MeasureZero) event(Night, *time.Location) (string, any, error) {
	if err := finite("the camera's angle at reading 0", &a.Angle, &a.Error); err != nil {
		return "", nil, err
	}
	if a.Error <= 0 {
		return "", nil, errors.New("the error of the camera's angle at reading 0 must be above 0; give one standard deviation")
	}
	return KindZeroMeasured, ZeroMeasuredBody{a.Angle.Signed().Degrees(), a.Error.Degrees()}, nil
}

// Zero is the camera's angle at the derotator's reading 0 as the night's lights show it, and one σ.
type Zero struct{ Angle, Error sky.Angle }

func zeroMeasuredRow() row {
	return row{kind: KindZeroMeasured, change: with((*Night).zeroMeasured), words: func(e journal.Event) string {
		return said(e, func(b ZeroMeasuredBody) string {
			return "camera angle at reading 0: " + words.DegreesAsRead(degrees(b.AngleDeg))
		})
	}}
}

func (n *Night) zeroMeasured(b ZeroMeasuredBody, _ time.Time) {
	n.Zero = &Zero{degrees(b.AngleDeg), degrees(b.ErrorDeg)}
}
