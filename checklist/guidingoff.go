package checklist

import (
	"fmt"
	"time"

	"duskhand/sky/words"
)

// KindGuidingOff is the event of the guiding being off. Its body is empty.
const KindGuidingOff = "guiding-off"

// GuidingOff says that the guiding is off.
type GuidingOff struct{}

func (GuidingOff) event(n Night, zone *time.Location) (string, any, error) {
	g := n.Guiding
	if !g.On && !g.Since.IsZero() && !n.turnedSince(g.Since) {
		return "", nil, fmt.Errorf("guiding is off already since %s; say when it is on", words.Minute(g.Since, zone))
	}
	return KindGuidingOff, struct{}{}, nil
}

func guidingOffRow() row {
	return row{kind: KindGuidingOff, change: with((*Night).guidingOff), words: plainWords("guiding off"), proof: true}
}

func (n *Night) guidingOff(_ struct{}, at time.Time) {
	n.Guiding.On, n.Guiding.Since, n.Guiding.Lost = false, at, nil
}
