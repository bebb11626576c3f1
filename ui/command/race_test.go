//go:build race

package command_test

// withDetector builds the real binary as these tests are built: with the race detector, which ends a program that it
// caught with a status of its own.
func withDetector() []string { return []string{"-race"} }
