// Package watch notices the frames that a capture computer writes into a folder, with no key pressed. It opens
// files for reading at most, and never writes, moves or locks one.
//
// The system's notices of changed files are used where it gives them, and the folders are walked slowly beside
// that, since notices get lost and shared folders give none. A frame is handed on when it has stopped growing:
// equal in size and time at two looks. Time comes in through the Settings; nothing here reads a clock.
package watch

import (
	"context"
	"errors"
	"path/filepath"
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
)

// Look is what reading a frame gave.
type Look struct {
	Header   subs.Header
	Measured *subs.Measured // nil if there was nothing to measure
	Remarks  []string

	Placed   *checklist.PlacedBody // where it looks; nil if that is not known
	Unplaced string                // why not, a kind of package solve; "" when nobody tried
}

// Reader reads a frame, and measures it if it is worth that: already tells that the file was there when the
// watch began. It is called by up to Workers goroutines at a time. Its error names the file.
type Reader func(ctx context.Context, path string, already bool) (Look, error)

// Settings say what is watched and how. Folders, Read, Now and After are needed.
type Settings struct {
	Folders []string // with all folders in them, links to folders left out
	Read    Reader
	Now     func() time.Time
	After   func(time.Duration) <-chan time.Time // as time.After

	Known    []arrival.File // handed on by an earlier watch: not told again unless they have changed
	Since    time.Time      // what was changed earlier is passed over if it is there when the watch begins; zero: nothing is
	Poll     time.Duration  // between two walks of the folders; 0: 10 s
	Settle   time.Duration  // between two looks at a file that may be growing; 0: 2 s
	Workers  int            // frames read at a time; 0: 1
	PollOnly bool           // use no notices of the system
}

// Report is one thing that the watch has to say. Exactly one of the two is set.
type Report struct {
	Frame   *arrival.Frame
	Trouble *Trouble
}

// Trouble is a folder that can't be looked at, or can again.
type Trouble struct {
	Folder string // as the settings have it, or one inside; "" for the system's notices
	At     time.Time
	Over   bool   // the trouble has gone
	Text   string // what is wrong, and what would be right
}

// Start watches until ctx is done. It returns a channel of what there is to say, which is closed when all that
// was started has ended. Frames that are ready together come in the order of their files' times. A reader that
// hangs holds up the closing, so it should heed its context.
//
// Error: settings that can't be watched by. A folder that is missing is no error but a Trouble, and is looked
// for at every poll.
func Start(ctx context.Context, s Settings) (<-chan Report, error) {
	if len(s.Folders) == 0 {
		return nil, errors.New("no folder to watch; give the one that the capture computer writes its subs into")
	}
	if s.Read == nil || s.Now == nil || s.After == nil {
		return nil, errors.New("a watch needs a reader, a clock and a timer; give all three")
	}
	if s.Poll <= 0 {
		s.Poll = 10 * time.Second
	}
	if s.Settle <= 0 {
		s.Settle = 2 * time.Second
	}
	s.Workers = max(1, s.Workers)
	folders := make([]string, len(s.Folders))
	for i, folder := range s.Folders {
		folders[i] = filepath.Clean(folder)
	}
	s.Folders = folders
	reports := make(chan Report)
	go newWatch(s).run(ctx, reports)
	return reports, nil
}
