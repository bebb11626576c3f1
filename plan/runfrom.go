package plan

import "time"

// RunFrom returns the run that starts at an instant from a given reading of the derotator, and the sequence
// after it: what becomes of a choice of one's own, where NextRun chooses for the longest. It has no subs if
// none fits.
func (c *Course) RunFrom(anchor Anchor, until time.Time, sequence Sequence) (Run, Sequence) {
	return c.run(anchor.At, Stretch{Start: anchor.Angle}, until, sequence)
}
