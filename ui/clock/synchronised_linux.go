package clock

import "golang.org/x/sys/unix"

// synchronised reads the kernel's clock state: adjtimex(2) returns TIME_ERROR, or STA_UNSYNC in its status,
// while no program has disciplined the clock for a while. Reading needs no rights.
func synchronised() (yes, known bool) {
	const timeError, unsynchronised = 5, 0x40 // TIME_ERROR, STA_UNSYNC in linux/timex.h
	var t unix.Timex
	state, err := unix.Adjtimex(&t)
	if err != nil {
		return false, false
	}
	return state != timeError && t.Status&unsynchronised == 0, true
}
