package facts

import (
	"duskhand/checklist"
	"duskhand/ui/clock"
)

// CountOf returns the machine's steady count at a reading of its clock, as the night keeps it.
func CountOf(r clock.Reading) checklist.Count { return checklist.Count{Boot: r.Boot, Began: r.Began()} }
