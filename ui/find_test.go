package ui_test

import "testing"

// Whoever knows the name does not press down forty times.
func TestListsAreFoundInByTyping(t *testing.T) {
	t.Parallel()
	s := own(t, 80, 24).press("9", "i").sees("find in the list: a part of a step's sentence: _")
	s.press(typed("FLATS")...).sees("› Take flats through every filter", "esc", "space done")
	s.press("i").press(typed("zzz")...).sees(`nothing in the list has "zzz"`, "zzz_").press("esc").sees("› Take flats through")
	s.press("esc").seesNot("› Take flats")
	own(t, 80, 24).press("3", "i").press(typed("naos")...).sees("› Naos,", "first Naos")
	own(t, 80, 24).press("4", "i").press(typed("ank")...).sees("› Ankaa", "Ankaa, α Phe")
	own(t, 80, 24).press("7", "i").press(typed("Ori")...).sees("only in Orion")
}
