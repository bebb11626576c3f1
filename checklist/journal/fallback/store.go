package fallback

import (
	"time"

	"duskhand/checklist/journal"
)

// Store is what whoever writes or follows a night needs of a journal.
type Store interface {
	Append(night, kind string, at time.Time, body any) (journal.Event, error)
	Events(night string) ([]journal.Event, error)
	Since(ordinal int64) ([]journal.Event, error)
	Backup() (path string, err error)
	Pending() int
	Unwritten() []journal.Event // what is in memory only, also after Close
	Retry() error
	Check() error            // looks whether its files are where they belong
	Renewed() (words string) // what the person must know if they were not, once
	Close() error
}
