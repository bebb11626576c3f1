package say

import (
	"fmt"

	"duskhand/plan"
	"duskhand/sky/words"
)

// CheckStar says where the third star of a pair should stand, and where it would if a star had been mistaken.
func CheckStar(c plan.Check, pair plan.Pair) string {
	right := fmt.Sprintf("%s should stand within %s of the middle", c.Star.Star.Name(), words.Arcminutes(2*c.Expected, 1))
	worst, taken := c.First, pair.First
	if !worst.OK || c.Second.OK && c.Second.Off < worst.Off {
		worst, taken = c.Second, pair.Second
	}
	if !worst.OK {
		return right + "; no other bright star is near enough to be taken for either of the two."
	}
	return fmt.Sprintf("%s; with %s taken for %s it would be %s off.", right, worst.Taken, taken.Star.Name(), nearby(worst.Off))
}
