package checklist

import (
	"slices"
	"time"

	"duskhand/sky"
)

// KindCablesStraight is the event of the mount's cables hanging straight, as at the kit's
// mount.azimuth_straight_deg. Its body is empty.
const KindCablesStraight = "cables-straight"

// CablesStraight says that the mount's cables hang straight.
type CablesStraight struct{}

func (CablesStraight) event(Night, *time.Location) (string, any, error) {
	return KindCablesStraight, struct{}{}, nil
}

func cablesStraightRow() row {
	return row{kind: KindCablesStraight, change: with((*Night).cablesStraight), words: plainWords("cables straight"), proof: true}
}

// Cables is what the turning of the mount's cables follows from: when they were said to hang straight last,
// zero if never, and what the telescope has been sent to since, oldest first.
type Cables struct {
	Straight time.Time
	Gotos    []Goto
}

// Goto is the telescope having been sent to a star or target.
type Goto struct {
	At   time.Time
	Name string
	Star sky.Star
}

// cablesStraight begins the count anew. The target that is chosen is gone back to from there.
func (n *Night) cablesStraight(_ struct{}, at time.Time) {
	n.Cables = Cables{Straight: at}
	if n.Target != nil {
		n.wentTo(n.Target.Name, n.Target.Star, at)
	}
}

// wentTo notes where the telescope was sent.
func (n *Night) wentTo(name string, star sky.Star, at time.Time) {
	n.Cables.Gotos = append(slices.Clip(n.Cables.Gotos), Goto{At: at, Name: name, Star: star})
}
