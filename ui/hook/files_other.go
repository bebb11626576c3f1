//go:build !linux

package hook

// keepFilesToOurselves has nothing to do: elsewhere the terminal is read through a kqueue or a handle, which
// programs that are started do not inherit.
func keepFilesToOurselves() {}
