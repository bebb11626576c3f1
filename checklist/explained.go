package checklist

// What by itself explains that the field creeps in the lights of a run.
const (
	ExplainedByStep  = "step"  // the camera turned at one go, between two lights
	ExplainedByTilt  = "tilt"  // the axis lies elsewhere than the night has it
	ExplainedByPivot = "pivot" // the field turns about a point off the middle
)

// ExplainedBody is what explains it, in numbers: of the kind's own, the others 0.
type ExplainedBody struct {
	By string `json:"by"`
	// StepDeg is by how much the camera turned.
	StepDeg float64 `json:"step_deg,omitempty"`
	// TiltDeg and TowardDeg are the axis that would explain it, KnownTiltDeg and KnownTowardDeg the one that was known.
	TiltDeg        float64 `json:"tilt_deg,omitempty"`
	TowardDeg      float64 `json:"toward_deg,omitempty"`
	KnownTiltDeg   float64 `json:"known_tilt_deg,omitempty"`
	KnownTowardDeg float64 `json:"known_toward_deg,omitempty"`
	// OffDeg is how far off the middle of the frame the point is.
	OffDeg float64 `json:"off_deg,omitempty"`
}
