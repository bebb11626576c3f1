package form

import "duskhand/ui/facts"

// The form's own messages. Its commands send them; whoever shows the form hands them back to Update.

// ComputedMsg brings tonight for the answers so far.
type ComputedMsg struct {
	question facts.NewNightQuestion
	night    facts.NewNight
}

// BeforeMsg brings the kit that is changed, and what was typed another time.
type BeforeMsg struct {
	typed   map[string]string
	old     map[string]string // the kit's answers, nil for a new one
	besides []string          // what else its file holds
	err     error
}

// KeptMsg comes when what was typed is on the disk, or could not be put there.
type KeptMsg struct {
	typed map[string]string
	Err   error
}

// WrittenMsg comes when the kit is on the disk at Path, or could not be put there.
type WrittenMsg struct {
	Path string
	Err  error
}
