package checklist

import (
	"errors"
	"fmt"
	"time"

	"duskhand/sky/words"
)

// KindGuidingLost is the event of the guiding having lost its star. Its body is empty.
const KindGuidingLost = "guiding-lost"

// GuidingLost says that the guiding has lost its star: it is on and holds nothing.
type GuidingLost struct{}

func (GuidingLost) event(n Night, zone *time.Location) (string, any, error) {
	g := n.Guiding
	switch {
	case g.Lost != nil:
		return "", nil, fmt.Errorf("the guide star is lost already since %s; say when guiding holds again", words.Minute(*g.Lost, zone))
	case !g.On && !g.Since.IsZero() && !n.turnedSince(g.Since):
		return "", nil, errors.New("guiding is off and holds no star that it could lose; say when it is on")
	}
	return KindGuidingLost, struct{}{}, nil
}

func guidingLostRow() row {
	return row{kind: KindGuidingLost, change: with((*Night).guidingLost), words: plainWords("guide star lost"), proof: true, inLoop: true}
}

func (n *Night) guidingLost(_ struct{}, at time.Time) { n.Guiding.Lost = &at }
