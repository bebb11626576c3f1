package kit

import "duskhand/sky"

// KeepAngle says which runs of a night begin at the camera angle that a target wants.
type KeepAngle string

// The ways. A run begins at the wanted angle, or at one that covers the same sky.
const (
	PreferAngle KeepAngle = "when possible" // and where it can't, the longest run
	AlwaysKeep  KeepAngle = "always"        // and where it can't, the night waits
	NeverKeep   KeepAngle = "never"         // always the longest run
)

// atEnd is how near a stage that stops only at its ends must be asked to one of them.
const atEnd = 0.1 * sky.Degree

// Reach returns the reading that the stage can be set to for a wanted one: itself within the travel, or the
// end that it comes within 0.1° of for a stage that stops only at its ends. ok is false when it can't.
func (d Derotator) Reach(wanted sky.Angle) (reading sky.Angle, ok bool) {
	if d.StopsAnywhere {
		return wanted, wanted >= d.Min && wanted <= d.Max
	}
	for _, end := range []sky.Angle{d.Min, d.Max} {
		if (wanted - end).Abs() <= atEnd {
			return end, true
		}
	}
	return wanted, false
}
