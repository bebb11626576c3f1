package say

import (
	"fmt"

	"duskhand/plan/supplies"
	"duskhand/sky/words"
	"duskhand/ui/facts"
)

// Told is one sentence; Urgent ones want something done.
type Told struct {
	Text   string
	Urgent bool
}

// Supplies says whether dry glass, disk and battery last for the night, what is wrong first.
func Supplies(s facts.Supplies) []Told {
	var urgent, calm []Told
	for _, t := range []Told{dew(s), Room(s), Power(s)} {
		switch {
		case t.Text == "":
		case t.Urgent:
			urgent = append(urgent, t)
		default:
			calm = append(calm, t)
		}
	}
	return append(urgent, calm...)
}

func dew(s facts.Supplies) Told {
	if !s.DewOK {
		return Told{Text: s.DewNone}
	}
	read := ""
	if !s.DewAt.IsZero() {
		read = " Read at " + words.Minute(s.DewAt, s.Zone) + "."
	}
	return Told{air(s.Dew) + read, s.Dew.Risk != supplies.Dry}
}

// Room says whether the disk holds the subs.
func Room(s facts.Supplies) Told {
	switch {
	case s.Data.Subs == 0:
		return Told{Text: "No more subs are planned."}
	case s.Room != nil:
		return Told{room(*s.Room), !s.Room.Fits()}
	}
	return Told{Text: fmt.Sprintf("The subs planned, %d, take %.1f GB. %s", s.Data.Subs, float64(s.Data.Bytes)/1e9, s.NoRoom)}
}

// Power says whether the battery lasts.
func Power(s facts.Supplies) Told {
	if !s.Lasts {
		return Told{Text: "The Sun does not set: there is no night for the battery to last through."}
	}
	return Told{battery(s.Power, s.Zone), s.Power.Empty.OK && len(s.Power.Lacks) == 0}
}
