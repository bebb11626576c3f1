//go:build !race

package command_test

// withDetector builds the real binary as these tests are built.
func withDetector() []string { return nil }
