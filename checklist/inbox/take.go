package inbox

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// mostAtOnce bounds what one Take returns, so that a flood of messages holds up nothing else.
const mostAtOnce = 32

// Take claims what waits in the folder, oldest first, and returns it. Each message must be answered. What
// is too old or can't be read is answered here with a refusal. A folder that is not there holds nothing.
//
// Only the program that writes the journal may call it. It costs one reading of the folder, and sweeps
// away what dead programs left.
func Take(folder string, now time.Time) ([]Message, error) {
	entries, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("looking for what other programs say: %w", err)
	}
	var messages []Message
	var faults []error
	for _, entry := range entries { // by name, that is by the instant of sending
		name := strings.TrimSuffix(entry.Name(), said)
		sent, ours := sentAt(name)
		switch {
		case !ours:
		case name == entry.Name():
			faults = append(faults, sweep(filepath.Join(folder, name), sent, now))
		case len(messages) < mostAtOnce:
			m, ok, err := claim(filepath.Join(folder, name), now)
			faults = append(faults, err)
			if ok {
				messages = append(messages, m)
			}
		}
	}
	if err := errors.Join(faults...); err != nil {
		return messages, fmt.Errorf("taking what other programs say: %w", err)
	}
	return messages, nil
}

// claim makes a message ours; ok is false if it was withdrawn, claimed by another program, or refused.
func claim(path string, now time.Time) (m Message, ok bool, err error) {
	if err := os.Rename(path+said, path+taken); errors.Is(err, fs.ErrNotExist) {
		return Message{}, false, nil
	} else if err != nil {
		return Message{}, false, err
	}
	m, err = read(path)
	switch {
	case err != nil:
		return m, false, m.Answer(Answer{Text: fmt.Sprintf("it can't be read: %v", err)})
	case len(m.Words) == 0:
		return m, false, m.Answer(Answer{Text: "it says nothing"})
	case now.After(m.Until):
		return m, false, m.Answer(Answer{Text: "it came too late; say it again"})
	}
	return m, true, nil
}

// Answer leaves the answer for the sender. Call it when the event is on the disk, or was refused.
func (m Message) Answer(a Answer) error {
	if m.path == "" {
		return errors.New("this message was not taken from an inbox")
	}
	data, err := json.Marshal(a)
	if err == nil {
		err = put(filepath.Dir(m.path), filepath.Base(m.path), answer, data)
	}
	if err = errors.Join(err, remove(m.path+taken)); err != nil {
		return fmt.Errorf("answering another program: %w", err)
	}
	return nil
}

// keptFor is how long answers that nobody fetched, and what dead programs left half done, stay: longer
// than any sender waits.
const keptFor = 10 * time.Minute

// sweep removes a file that has been lying about, or bears a date that has not come: a clock was set back.
func sweep(path string, sent, now time.Time) error {
	if now.Sub(sent).Abs() < keptFor {
		return nil
	}
	return remove(path)
}
