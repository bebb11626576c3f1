package command

import "duskhand/plan/ask"

// ComputeKind, ComputeField and ComputeKinds give the tests the table behind the help of compute.
type (
	ComputeKind  = computeKind
	ComputeField = computeField
)

// ComputeKinds returns the table.
func ComputeKinds() []ComputeKind { return computeKinds() }

// MachineZone finds the computer's time zone.
var MachineZone = machineZone

// AnswerTo answers one request of compute.
func AnswerTo(line []byte) (answer []byte, ok bool) {
	return answerTo(ask.New(otherKinds()), line, false)
}
