package say

import (
	"fmt"
	"time"

	"duskhand/sky/words"
)

// Behind says that the night has what lies later than the clock shows, by so much: the longest way first.
func Behind(by time.Duration) []string {
	lasts := words.Lasting(by.Round(time.Second))
	return []string{
		fmt.Sprintf("the journal has what was said %s later than this computer's clock shows: one of the two is wrong", lasts),
		"the journal is " + lasts + " ahead of the clock",
		"clock or journal wrong",
	}
}

// BehindRemedy says what to do about it.
func BehindRemedy() []string {
	return []string{
		"Set this computer's clock; or if it is right, read the derotator's angle and say it.",
		"Set the clock, or read the angle and say it.",
		"Set the clock.",
	}
}
