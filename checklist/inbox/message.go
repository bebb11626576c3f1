package inbox

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// Message is something that a program says has happened.
type Message struct {
	Words []string  `json:"words"`      // as the command line has them: "rewound", "-16"
	Sent  time.Time `json:"sent_utc"`   // on the sender's clock
	Until time.Time `json:"until_utc"`  // the sender waits until then; later it must not be taken
	PID   int       `json:"sender_pid"` // for people who look into the folder
	path  string    // of the claimed file, without its ending
}

// Answer is what became of a message.
type Answer struct {
	Accepted bool   `json:"accepted"`
	Text     string `json:"text"` // what was written, or why it was refused
}

// longestMessage is how long a message may be in bytes. Words are some dozens; a note is a paragraph.
const longestMessage = 64 << 10

func (m Message) encode() ([]byte, error) {
	data, err := json.Marshal(m)
	if err == nil && len(data) > longestMessage {
		err = fmt.Errorf("this is %d bytes long; say it in less than %d", len(data), longestMessage)
	}
	return data, err
}

// read returns the message in the claimed file.
func read(path string) (Message, error) {
	info, err := os.Lstat(path + taken)
	if err != nil {
		return Message{path: path}, err
	}
	if !info.Mode().IsRegular() || info.Size() > longestMessage {
		return Message{path: path}, fmt.Errorf("%s is no message", filepath.Base(path))
	}
	data, err := os.ReadFile(path + taken)
	if err != nil {
		return Message{path: path}, err
	}
	var m Message
	err = json.Unmarshal(data, &m)
	m.path = path
	return m, err
}
