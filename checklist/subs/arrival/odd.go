package arrival

import "time"

// Odd is what is odd about frames, in kinds and numbers. Its notice's kind says which of them hold.
type Odd struct {
	Filter           string        // of WrongExposure: as the kit has it; of UnknownFilter: as the header has it, "" for none
	Filters          []string      // of UnknownFilter: the kit's
	Exposure, Wanted time.Duration // of WrongExposure

	Named, Target string // of OtherObject: what the header names, and the run's target
	Header        string // of NotALight: what the frame is by its header

	SensorC, SetPointC float64

	Copy   string // of Copied: the path of the frame that it repeats
	Spoils Why    // of Spoilt
	Error  string // of Unread: as whoever could not read it words it

	Silence time.Duration // of Silent: for how long
	None    bool          // and no frame has come since subs were started

	Clock Clock         // of ClockOff
	Ahead time.Duration // by how much; negative for behind

	Subs, Left int    // of DiskShort: that the disk has room for, and that are planned
	Each       uint64 // bytes of one
}

// Clock is which of the clocks about the frames is off.
type Clock string

// The clocks: of DATE-OBS, which may be local time instead of UTC, and of the files.
const (
	LocalTime Clock = "local"
	Capture   Clock = "dates"
	Folder    Clock = "files"
)
