package inbox

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// ErrNotTaken says that nobody took the message in time. It has been withdrawn, and won't be taken.
var ErrNotTaken = errors.New("no program took it in time")

// ErrNoAnswer says that a program took the message and did not answer in time. It may or may not have
// written it down.
var ErrNoAnswer = errors.New("the running program took it and did not answer; see in the journal whether it counts before saying it again")

// Letter is a message that has been sent and not been answered yet.
type Letter struct{ path string }

// Post puts words into the folder, making it if need be (0700). They are not to be taken later than wait
// after now.
func Post(folder string, words []string, now time.Time, wait time.Duration) (Letter, error) {
	name, err := newName(now)
	if err != nil {
		return Letter{}, fmt.Errorf("handing it to the running program: %w", err)
	}
	data, err := Message{Words: words, Sent: now.UTC(), Until: now.Add(wait).UTC(), PID: os.Getpid()}.encode()
	if err == nil {
		err = os.MkdirAll(folder, 0o700)
	}
	if err == nil {
		err = put(folder, name, said, data)
	}
	if err != nil {
		return Letter{}, fmt.Errorf("handing it to the running program: %w", err)
	}
	return Letter{path: filepath.Join(folder, name)}, nil
}

// Answer returns the answer and takes it away; ok is false if there is none yet.
func (l Letter) Answer() (a Answer, ok bool, err error) {
	data, err := os.ReadFile(l.path + answer)
	if errors.Is(err, fs.ErrNotExist) {
		return Answer{}, false, nil
	}
	if err == nil {
		err = json.Unmarshal(data, &a)
	}
	if err != nil {
		return Answer{}, false, fmt.Errorf("reading the running program's answer: %w", err)
	}
	// What stays behind, on a system where others look into it just now, is swept away with time.
	_ = os.Remove(l.path + answer)
	return a, true, nil
}

// Withdraw takes the message back. It returns false if it is too late: somebody has claimed it.
func (l Letter) Withdraw() (withdrawn bool, err error) {
	err = os.Remove(l.path + said)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}

// pause is how often a sender looks for its answer: unnoticed by a person, and no load.
const pause = 20 * time.Millisecond

// Wait waits for the answer until the context ends. Each time it looks in vain it asks instead, which
// returns true if the sender can now do without the taker: a message that nobody has claimed is then
// withdrawn.
//
// Error: ErrNotTaken or ErrNoAnswer, or what the disk refused.
func (l Letter) Wait(ctx context.Context, instead func() bool) (Answer, error) {
	ticker := time.NewTicker(pause)
	defer ticker.Stop()
	for over := false; ; {
		a, ok, err := l.Answer()
		if ok || err != nil {
			return a, err
		}
		if over || instead() {
			withdrawn, err := l.Withdraw()
			switch {
			case err != nil:
				return Answer{}, fmt.Errorf("withdrawing it: %w", err)
			case withdrawn:
				return Answer{}, ErrNotTaken
			case over:
				return l.last()
			}
		}
		select {
		case <-ticker.C:
		case <-ctx.Done():
			over = true
		}
	}
}

// last looks once more for an answer that came while the message was being withdrawn.
func (l Letter) last() (Answer, error) {
	a, ok, err := l.Answer()
	if !ok && err == nil {
		err = ErrNoAnswer
	}
	return a, err
}
