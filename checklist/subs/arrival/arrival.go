// Package arrival tells what the frames that have arrived mean for the night: how many subs each target,
// filter and run really has, and what about them is odd. It reads no file, no clock and no screen; package
// watch hands it the frames.
//
// Everything is derived from the whole set of frames, so the order in which they come makes no difference.
package arrival

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs"
)

// File is a file as it stood when it was looked at. The same path with another size or time is another File.
type File struct {
	Path    string
	Size    int64     // bytes
	Changed time.Time // its modification time, on the clock of whoever keeps the folder
}

// Frame is a frame that the capture computer has finished writing.
type Frame struct {
	File
	Was     string        // the path under which it was handed on before it was renamed; "" if it was not
	Seen    time.Time     // on our clock, when it was first seen as it is now
	Late    time.Duration // it had been so for no longer than this by then
	Ours    *time.Time    // the start of its exposure on our clock, as found when it arrived; nil for a new frame
	Already bool          // it was there when the watch began: Seen and Late say nothing of when it was written

	Header   subs.Header
	Measured *subs.Measured // nil if it could not be measured, or is no light
	Remarks  []string       // what its header says that could not be used, in words
	Unread   string         // why it could not be read, in words; "" if it was

	Placed   *checklist.PlacedBody // by its stars; nil if it is not
	Unplaced string                // why not, a kind of package solve; "" when nobody tried
}
