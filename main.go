// Duskhand is a companion for the night at an unlevelled alt-azimuth mount with a field derotator of
// limited travel. The program itself is package ui/command.
package main

import (
	"os"
	"runtime/debug"
	_ "time/tzdata" // a computer in a field need not have a table of time zones

	"duskhand/ui/clock"
	"duskhand/ui/command"
)

// collectAt is by how much of what is in use the memory grows before it is collected, in parts of a hundred. A frame
// being measured is 50 MB and more of it, which the usual 100 would double for nothing; and the screens run all night
// beside programs that need the memory, and make little waste.
const collectAt = 20

func main() {
	debug.SetGCPercent(collectAt)
	os.Exit(command.Main(os.Args[1:], command.Standard(), os.Getenv, clock.System()))
}
