// Package inbox hands what other programs say to the one that writes the journal, through a folder beside
// it: no network, no pipes, the same on every system.
//
// A sender puts each message into a file of its own, brought to disk and then renamed, so that no half of
// one is ever seen. The taker claims a message by renaming it again, which only one can do, judges it, and
// leaves the answer in a file of the same name, which the sender takes away. A file's name begins with the
// instant at which it was sent, so that they are taken in that order, and whatever a dead program left
// lying is swept away by its age.
//
//	20261205T124407.123456789Z-4711-9f3a01c2.part    being written
//	….said                                           waits for the taker
//	….taken                                          claimed; being judged
//	….answer                                         waits for the sender
//
// A message is taken at most once: one that was claimed by a program that then died is not taken again.
package inbox

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"duskhand/checklist/durable"
)

// Beside returns the folder that belongs to the journal at path.
func Beside(journal string) string { return journal + ".inbox" }

// The endings of a message's file, as it goes from hand to hand.
const (
	part   = ".part"
	said   = ".said"
	taken  = ".taken"
	answer = ".answer"
)

// stampLayout is fixed in width and in UTC, so that names sort by time.
const stampLayout = "20060102T150405.000000000Z"

// newName returns a name that no other message has: by instant, process and chance.
func newName(now time.Time) (string, error) {
	chance := make([]byte, 4)
	if _, err := rand.Read(chance); err != nil {
		return "", err
	}
	return fmt.Sprintf("%s-%d-%s", now.UTC().Format(stampLayout), os.Getpid(), hex.EncodeToString(chance)), nil
}

// sentAt returns the instant in a name; ok is false for a file that is not ours.
func sentAt(name string) (at time.Time, ok bool) {
	stamp, _, found := strings.Cut(name, "-")
	at, err := time.Parse(stampLayout, stamp)
	return at, found && err == nil
}

// put brings data to disk as folder/name+ending, whole or not at all.
func put(folder, name, ending string, data []byte) (err error) {
	path := filepath.Join(folder, name)
	file, err := os.OpenFile(path+part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if err = errors.Join(err, file.Sync(), file.Close()); err == nil {
		err = os.Rename(path+part, path+ending)
	}
	if err != nil {
		return errors.Join(err, remove(path+part))
	}
	return durable.Names(folder)
}

// remove removes a file that may be gone.
func remove(path string) error {
	if err := os.Remove(path); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
