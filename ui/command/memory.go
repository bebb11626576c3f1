package command

import "runtime/debug"

// collectAt is by how much of what is in use the memory grows before it is collected, in parts of a hundred.
const collectAt = 20

// sparing has the memory collected sooner than usual, until what it returns is called: a frame being measured is 50 MB
// and more, which the usual hundred parts would double for nothing; and the screens run all night beside programs that
// need the memory, and make little waste. Commands that answer at once are quicker without.
func sparing() (usual func()) {
	before := debug.SetGCPercent(collectAt)
	return func() { debug.SetGCPercent(before) }
}
