package checklist

import (
	"errors"
	"time"
)

// KindClear is the event of the cloud having gone. Its body is empty.
const KindClear = "clear"

// SkyCleared says that the target is clear of cloud again.
type SkyCleared struct{}

func (SkyCleared) event(n Night, _ *time.Location) (string, any, error) {
	if n.Cloud == nil {
		return "", nil, errors.New("no cloud has been said; say when it comes")
	}
	return KindClear, struct{}{}, nil
}

func clearRow() row {
	return row{kind: KindClear, change: with((*Night).skyCleared), words: plainWords("clear again")}
}

func (n *Night) skyCleared(struct{}, time.Time) { n.Cloud = nil }
