package checklist

import (
	"fmt"
	"time"

	"duskhand/sky/words"
)

// KindGuidingOn is the event of the guiding being on and seen to hold. Its body is empty.
const KindGuidingOn = "guiding-on"

// GuidingOn says that the guiding is on and holds.
type GuidingOn struct{}

func (GuidingOn) event(n Night, zone *time.Location) (string, any, error) {
	g := n.Guiding
	if g.On && g.Lost == nil && !n.turnedSince(g.Since) {
		return "", nil, fmt.Errorf("guiding is on already since %s; say that it is off, or that the star is lost, when that happens",
			words.Minute(g.Since, zone))
	}
	return KindGuidingOn, struct{}{}, nil
}

func guidingOnRow() row {
	return row{kind: KindGuidingOn, change: with((*Night).guidingOn), words: plainWords("guiding on"), proof: true, inLoop: true}
}

func (n *Night) guidingOn(_ struct{}, at time.Time) {
	n.Guiding.On, n.Guiding.Since, n.Guiding.Lost = true, at, nil
}
