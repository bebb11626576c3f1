package bell

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan/kit"
	"duskhand/ui/hook"
	"duskhand/ui/say"
)

// RungMsg comes from Ring; Err is that of a command of the operator's that failed.
type RungMsg struct{ Err error }

// timeout bounds an alarm command of the operator's: it must not pile up.
const timeout = 20 * time.Second

// Ring sounds the alarm: the terminal's bell, or the operator's own command, run without a shell and ended
// after a while; and a message on the desktop where the terminal shows one.
func Ring(alarm kit.Alarm, messages Messages, terminal io.Writer, alert say.Alert) tea.Cmd {
	sound := ""
	if alarm.Bell == "bell" {
		sound = "\a"
	}
	if alarm.Notify {
		sound += messages.Message(string(alert.Kind) + ": " + alert.Words)
	}
	write := func() error {
		_, err := io.WriteString(terminal, sound)
		return err
	}
	if alarm.Bell != "command" || len(alarm.Command) == 0 {
		if sound == "" {
			return nil
		}
		return func() tea.Msg { return RungMsg{write()} }
	}
	command := append([]string(nil), alarm.Command...)
	return func() tea.Msg {
		ctx, cancel := context.WithTimeout(context.Background(), timeout)
		defer cancel()
		var failed error
		if err := hook.Command(ctx, command).Run(); err != nil {
			failed = fmt.Errorf("the alarm command %s failed: %w", command[0], err)
		}
		return RungMsg{errors.Join(write(), failed)}
	}
}
