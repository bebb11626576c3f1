package turning

import (
	"time"

	"duskhand/sky"
)

// Turned is by how much the camera has turned at the middle of a light, since the reference.
type Turned struct {
	At     time.Time
	Camera sky.Angle  // unwrapped; positive through east when the parity is known
	Error  sky.Angle  // one σ
	Moved  *Transform // from the reference; nil when only the light before could be compared
}

// Turned returns the angles of the run's lights that could be compared, in order.
func (j Judge) Turned() []Turned {
	turned := make([]Turned, len(j.points))
	for i, p := range j.points {
		turned[i] = Turned{p.at, p.camera, p.sigma, p.moved}
	}
	return turned
}
