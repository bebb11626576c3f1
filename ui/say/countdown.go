package say

import (
	"fmt"
	"time"
)

// Countdown prints a time left for the big digits: minutes and seconds below an hour, hours and minutes
// with an h between them from there on, so that the one is never read as the other. unit says which.
func Countdown(left time.Duration) (digits, unit string) {
	left = max(0, left.Truncate(time.Second))
	if left >= time.Hour {
		return fmt.Sprintf("%dh%02d", int(left.Hours()), int(left.Minutes())%60), "hours and minutes"
	}
	return fmt.Sprintf("%d:%02d", int(left.Minutes()), int(left.Seconds())%60), "minutes and seconds"
}
