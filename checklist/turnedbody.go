package checklist

import "time"

// TurnedBody is how the camera turned between the last light of one run and the first of the next, on one target. The
// field turned about AboutX, AboutY, in pixels, unbinned, from the middle of the file's picture along its axes; by the
// rotation in the sense of TurningBody. ErrorPx is one σ of the shift between the two lights. It is found from the stars of
// both, or where those can't be matched from where both look. Parity is −1, 0 or 1, as
// the pixels lie on the sky, 0 for unknown.
//
// Free tells that between the two nobody was said to have nudged the mount, and guiding was off: only then did the
// field turn about the derotator's axis.
type TurnedBody struct {
	RotationDeg float64 `json:"rotation_deg"`
	AboutX      float64 `json:"about_x_px"`
	AboutY      float64 `json:"about_y_px"`
	ErrorPx     float64 `json:"error_px"`
	Parity      int     `json:"parity"`
	Free        bool    `json:"free"`
}

// LeftAlone tells that beside a turn that was over at an instant nothing was said that moves the picture since the light
// before it began: no target brought back to its place, and no guiding, which is said to have been off before the turn.
func (n Night) LeftAlone(light, turned time.Time) bool {
	g := n.Guiding
	return !g.On && !g.Since.IsZero() && !g.Since.After(turned) && (n.Recentred == nil || n.Recentred.Before(light))
}
