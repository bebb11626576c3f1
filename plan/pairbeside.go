package plan

import (
	"math"

	"duskhand/sky"
)

// Beside is how a pair compares with the best of the list that it stands in, in whole percent.
type Beside struct {
	Itself   bool // it is the best
	Pointing int  // more error at the target; negative for less
	Roll     int  // more turn about the target
	Less     bool // of the error, by more than pairs that count as alike differ: the best stands first for its names
}

func besideOf(p, best Pair) Beside {
	if p.First == best.First && p.Second == best.Second {
		return Beside{Itself: true}
	}
	more := func(a, b sky.Angle) int { return int(math.Round(100 * float64(a/b-1))) }
	pointing := more(p.Pointing, best.Pointing)
	return Beside{Pointing: pointing, Roll: more(p.Roll, best.Roll), Less: float64(pointing) < -100*alike}
}
