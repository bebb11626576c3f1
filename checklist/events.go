// Package checklist knows what has happened in a night: the kinds of events, the state that they add
// up to, and which events make sense next. It reads no clock, no file and no screen.
//
// Events are facts in the past tense, kept by package journal. Night is their fold and is never
// stored. Instants are UTC; angles of the derotator are mechanical, as its scale shows them.
package checklist

// Kinds of events. Programs may add kinds; those that a program does not know it passes over.
const (
	KindNightOpened  = "night-opened"
	KindTargetChosen = "target-chosen"
	KindDerotatorOn  = "derotator-on"
	KindDerotatorOff = "derotator-off"
	KindRewound      = "rewound"
	KindRead         = "read"
	KindSubsStarted  = "subs-started"
	KindSubsStopped  = "subs-stopped"
	KindAxisMeasured = "axis-measured"
	KindStepDone     = "step-done"
	KindStepSkipped  = "step-skipped"
	KindStepFailed   = "step-failed"
	KindNoted        = "noted"
	KindClockJumped  = "clock-jumped"
	KindUndone       = "undone"
)

// NightOpenedBody is the body of KindNightOpened: the night's file of the kit, and the target by name
// if one is meant already. It is written again when the machine was started anew: Boot names that start,
// and BeganNs is what the clock would have shown then, nanoseconds since 1970 in UTC; neither is there
// where nobody can tell.
type NightOpenedBody struct {
	Kit     string `json:"kit"`
	Target  string `json:"target,omitempty"`
	Boot    string `json:"boot,omitempty"`
	BeganNs int64  `json:"boot_unix_ns,omitempty"`
}

// TargetChosenBody is the body of KindTargetChosen: a place in the ICRF at epoch J2000.0 and the
// proper motion from there, that in right ascension with cos δ. AngleDeg is the derotator's angle at
// that moment, if it was on and somebody knew it.
type TargetChosenBody struct {
	Name          string   `json:"name"`
	RADeg         float64  `json:"ra_deg"`
	DecDeg        float64  `json:"dec_deg"`
	PMRAMasPerYr  float64  `json:"pm_ra_mas_per_yr,omitempty"`
	PMDecMasPerYr float64  `json:"pm_dec_mas_per_yr,omitempty"`
	AngleDeg      *float64 `json:"angle_deg,omitempty"`
}

// DerotatorOnBody is the body of KindDerotatorOn; AngleDeg is nil if nobody knew the angle.
type DerotatorOnBody struct {
	AngleDeg *float64 `json:"angle_deg,omitempty"`
}

// DerotatorOffBody is the body of KindDerotatorOff; AngleDeg is where it was left, nil if nobody knew.
type DerotatorOffBody struct {
	AngleDeg *float64 `json:"angle_deg,omitempty"`
}

// RewoundBody is the body of KindRewound; FromDeg is nil if nobody read the angle before.
type RewoundBody struct {
	FromDeg *float64 `json:"from_deg"`
	ToDeg   float64  `json:"to_deg"`
}

// ReadBody is the body of KindRead: the derotator's angle as somebody read it.
type ReadBody struct {
	AngleDeg float64 `json:"angle_deg"`
}

// SubsStartedBody is the body of KindSubsStarted.
type SubsStartedBody struct {
	Filter string      `json:"filter,omitempty"`
	Order  []OrderPart `json:"order,omitempty"` // as it was told then; none where the filters take turns
}

// OrderPart is so many subs through one filter.
type OrderPart struct {
	Filter string `json:"filter"`
	Count  int    `json:"count"`
}

// SubsStoppedBody is the body of KindSubsStopped.
type SubsStoppedBody struct{}

// AxisMeasuredBody is the body of KindAxisMeasured: how far the mount's azimuth axis leans, towards
// which azimuth (from north through east), and how well that is known.
type AxisMeasuredBody struct {
	TiltDeg        float64 `json:"tilt_deg"`
	TowardDeg      float64 `json:"toward_deg"`
	UncertaintyDeg float64 `json:"uncertainty_deg"`
	How            string  `json:"how"`
	// By is what the fit went by: readings or frames; "" for stars, a level, or what was typed.
	By string `json:"by,omitempty"`
	// Spread is the covariance of the tilt vector, if a fit gave one: it says more than the circle.
	Spread *SpreadBody `json:"spread,omitempty"`
}

// SpreadBody is plan.Spread as bodies hold it: one standard deviation of each part, and their correlation.
type SpreadBody struct {
	EastDeg     float64 `json:"east_deg"`
	NorthDeg    float64 `json:"north_deg"`
	Correlation float64 `json:"correlation"`
}

// StepDoneBody is the body of KindStepDone: a step of the checklist by its id, and the number of the run
// whose loop of steps was open then (Night.Loop).
type StepDoneBody struct {
	Step string `json:"step"`
	Loop int    `json:"loop"`
}

// StepSkippedBody is the body of KindStepSkipped.
type StepSkippedBody struct {
	Step   string `json:"step"`
	Loop   int    `json:"loop"`
	Reason string `json:"reason"`
}

// StepFailedBody is the body of KindStepFailed.
type StepFailedBody struct {
	Step string `json:"step"`
	Loop int    `json:"loop"`
	Note string `json:"note"`
}

// NotedBody is the body of KindNoted.
type NotedBody struct {
	Text string `json:"text"`
}

// ClockJumpedBody is the body of KindClockJumped, nanoseconds since 1970 in UTC: at one and the same
// moment the clock would have shown From and showed To. A suspended computer whose clock is right
// afterwards is no jump.
type ClockJumpedBody struct {
	FromNs int64 `json:"from_unix_ns"`
	ToNs   int64 `json:"to_unix_ns"`
}

// UndoneBody is the body of KindUndone: the event that counts as if it had not been written. If that is
// itself KindUndone, what it had undone counts again.
type UndoneBody struct {
	Ordinal int64 `json:"ordinal"`
}
