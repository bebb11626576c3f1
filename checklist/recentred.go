package checklist

import "time"

// KindRecentred is the event of the target having been brought back to its place on the chip. Its body is
// empty.
const KindRecentred = "recentred"

// Recentred says that the target stands again where it is wanted.
type Recentred struct{}

func (Recentred) event(Night, *time.Location) (string, any, error) {
	return KindRecentred, struct{}{}, nil
}

func recentredRow() row {
	return row{kind: KindRecentred, change: with((*Night).recentred), words: plainWords("re-centred"), proof: true, inLoop: true}
}

func (n *Night) recentred(_ struct{}, at time.Time) { n.Recentred = &at }
