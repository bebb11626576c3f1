// Duskhand is a companion for the night at an unlevelled alt-azimuth mount with a field derotator of
// limited travel. The program itself is package ui/command.
package main

import (
	"os"
	_ "time/tzdata" // a computer in a field need not have a table of time zones

	"duskhand/ui/clock"
	"duskhand/ui/command"
)

func main() {
	os.Exit(command.Main(os.Args[1:], command.Standard(), os.Getenv, clock.System()))
}
