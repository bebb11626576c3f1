package checklist

import (
	"fmt"
	"time"

	"duskhand/sky/words"
)

// KindCloud is the event of cloud having come over the target. Its body is empty.
const KindCloud = "cloud"

// CloudCame says that the target is behind cloud.
type CloudCame struct{}

func (CloudCame) event(n Night, zone *time.Location) (string, any, error) {
	if n.Cloud != nil {
		return "", nil, fmt.Errorf("it is cloudy already since %s; say when it is clear", words.Minute(*n.Cloud, zone))
	}
	return KindCloud, struct{}{}, nil
}

func cloudRow() row {
	return row{kind: KindCloud, change: with((*Night).cloudCame), words: plainWords("cloud")}
}

func (n *Night) cloudCame(_ struct{}, at time.Time) {
	if n.Cloud == nil {
		n.Cloud = &at
	}
}
