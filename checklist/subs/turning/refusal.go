package turning

import "fmt"

// TooFew is the error of a light with too few stars to compare.
type TooFew struct {
	Second bool // of the two lights
	Stars  int
}

// Error says what is wrong and what would be right.
func (e TooFew) Error() string {
	which := "the first light"
	if e.Second {
		which = "the second light"
	}
	return fmt.Sprintf("%s shows %s, and it takes %d to compare it: cloud, dew, or focus lost", which, stars(e.Stars), fewestMatched)
}

// NoMatch is the error of two lights whose stars don't lie on one another, whatever the shift and rotation.
type NoMatch struct {
	First, Second int // stars
	Agree         int // that the best attempt could match
}

// Error says what is wrong and what would be right.
func (e NoMatch) Error() string {
	return fmt.Sprintf("the stars of the two lights don't match: of %d and %d no more than %d agree; another field, a large shift, or cloud",
		e.First, e.Second, e.Agree)
}

func stars(n int) string {
	switch n {
	case 0:
		return "no star"
	case 1:
		return "one star"
	}
	return fmt.Sprintf("%d stars", n)
}
