package record

import (
	"fmt"
	"strings"

	"duskhand/sky"
	"duskhand/sky/words"
)

// roundedPosition is a position angle to a tenth, in [0°, 360°): 359.97° is 0.0°.
func roundedPosition(a sky.Angle) sky.Angle {
	return sky.Angle(words.RoundedDirection(a, 1)) * sky.Degree
}

// numbers prints which subs of a run, "1–5, 21".
func numbers(stretches []Stretch) string {
	var parts []string
	for _, s := range stretches {
		if s.From == s.To {
			parts = append(parts, fmt.Sprint(s.From))
			continue
		}
		parts = append(parts, fmt.Sprintf("%d–%d", s.From, s.To))
	}
	return strings.Join(parts, ", ")
}
