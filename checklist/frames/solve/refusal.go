package solve

import (
	"fmt"

	"duskhand/sky"
	"duskhand/sky/words"
)

// Kind is why a frame is not placed.
type Kind string

// The kinds.
const (
	FewInFrame  Kind = "few in frame" // too few stars were measured
	FewInLayer  Kind = "few in layer" // the layer has too few where the frame should look
	NowhereNear Kind = "nowhere near" // nothing within the prior agrees
)

// Refusal is why a frame is not placed.
type Refusal struct {
	Kind   Kind
	Stars  int       // that the frame or the layer has
	Within sky.Angle // that was searched
}

// Error says what is wrong and what would help.
func (r *Refusal) Error() string {
	switch r.Kind {
	case FewInFrame:
		return fmt.Sprintf("it shows %s, and it takes %d to tell: cloud, dew, or focus lost; or expose for longer", words.Count(r.Stars, "star"), leastInView)
	case FewInLayer:
		return fmt.Sprintf("the catalogue has only %s in a field of this size there, too few to tell", words.Count(r.Stars, "star"))
	}
	return fmt.Sprintf("its %d stars lie like none within %s of where it should look: it looks elsewhere, its scale is not the kit's, or too few of them are stars",
		r.Stars, words.DegreesAsRead(r.Within))
}
