package hook

// RunFor is Run with another limit, so that tests need not wait for it.
var RunFor = run
