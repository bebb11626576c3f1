// Package hook runs the operator's own programs at the events of the night: without a shell, for a limited
// time, and never so that the night waits for them.
package hook

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"sync"
	"time"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/sky/foreign"
)

// Limit is how long a program may take. It is ended then: programs must not pile up through a night.
const Limit = 20 * time.Second

// afterLimit is how long a program that was ended, or a child that it left behind, may hold its output open.
const afterLimit = time.Second

// Run runs the programs that the kit binds to what happened, all at once, waits for them, and returns those
// that failed, in the kit's order, as the journal takes them (checklist.KindCommandFailed). It takes as long
// as the longest, at most a little over Limit; run it beside the screens, in a command of theirs.
//
// The programs have what Command gives them and the variables of Variables; nothing on their input;
// of what they print only the end is looked at, when they fail.
func Run(ctx context.Context, k kit.Kit, what Happening) []checklist.CommandFailedBody {
	return run(ctx, Limit, k, what)
}

func run(ctx context.Context, limit time.Duration, k kit.Kit, what Happening) []checklist.CommandFailedBody {
	commands := k.Bound(what.Event)
	problems := make([]error, len(commands))
	var all sync.WaitGroup
	for i, command := range commands {
		all.Go(func() { problems[i] = runOne(ctx, limit, command, what.environment()) })
	}
	all.Wait()
	var failed []checklist.CommandFailedBody
	for i, err := range problems {
		if err != nil {
			failed = append(failed, checklist.CommandFailedBody{Event: what.Event, Command: commands[i], Problem: err.Error()})
		}
	}
	return failed
}

func runOne(ctx context.Context, limit time.Duration, words, variables []string) error {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	command := Command(ctx, words)
	command.Env = append(command.Env, variables...)
	command.WaitDelay = afterLimit
	printed := &tail{}
	command.Stdout, command.Stderr = printed, printed
	err := command.Run()
	switch {
	case err == nil, errors.Is(err, exec.ErrWaitDelay): // it went well and left a child behind
		return nil
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return fmt.Errorf("it was ended after %s", limit)
	case ctx.Err() != nil:
		return errors.New("it was ended with the program")
	}
	if last := printed.lastLine(); last != "" {
		return fmt.Errorf("%w: %s", err, last)
	}
	return err
}

// tail keeps the end of what is written to it.
type tail struct {
	mu   sync.Mutex
	kept []byte
}

const tailLength = 1 << 10 // bytes: the last lines of an error

// Write takes all and keeps little.
func (t *tail) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.kept = append(t.kept, p...)
	if excess := len(t.kept) - tailLength; excess > 0 {
		t.kept = append(t.kept[:0], t.kept[excess:]...)
	}
	return len(p), nil
}

// lastLine returns the last line that is not blank, printable and of at most 200 characters.
func (t *tail) lastLine() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	const longest = 200
	lines := strings.Split(strings.TrimSpace(strings.ToValidUTF8(string(t.kept), "�")), "\n")
	line := []rune(foreign.Line(strings.TrimSpace(lines[len(lines)-1])))
	if len(line) > longest {
		line = append(line[:longest], '…')
	}
	return string(line)
}
