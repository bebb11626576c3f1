package command

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/sky/foreign"
	"duskhand/ui/draw"
	"duskhand/ui/sentence"
)

const glanceLong = `Writes one line for a status bar, a prompt or the corner of an eye: how long until you must act, then
what to do or when to look again. In a terminal the line is written over each second; elsewhere a line
comes whenever it has changed. With --once it is written once, for a status bar that asks by itself.

It only reads the journal: it runs beside the screens and follows what they or a script write. Without a
kit it shows the example night; --at and --speed replay, as with the screens.

To fit --width, what to do is said shorter, then the mark of an example or a replay, then what the
answer counts down to. If that is not enough what to do goes, then what the answer counts down to, then
the mark; the answer stays.

Exit codes:
  0  the line is written, and nothing needs doing now
  1  the kit or the journal can't be read
  2  wrong use
  3  with the line written once: something must be done now
  4  with the line written once: no night is open in the journal`

const glanceExamples = `  duskhand glance                                        in a small terminal
  set -g status-right '#(duskhand glance --once --width 60)'   in tmux.conf
  duskhand glance --once --width 20 --ascii              in a prompt`

// The exit codes of glance --once beside Done: the line stands, and says so too.
const (
	actNow  = verdict(3)
	noNight = verdict(4)
)

// The widths that a line can have. The default leaves the last column of the commonest terminal free.
const narrowestLine, usualLine, widestLine = 6, 79, 1000

type glanceAsked struct {
	screensAsked
	width        int
	once, follow bool
}

func (p Program) glanceCommand(named *string) *cobra.Command {
	var asked glanceAsked
	cmd := &cobra.Command{
		Use:     "glance",
		Short:   "Write the countdown as one line, for a status bar or a prompt",
		Long:    glanceLong,
		Example: glanceExamples,
		Args:    noArguments,
		RunE:    action(func(*cobra.Command, []string) error { return p.glance(*named, asked) }),
	}
	flags := cmd.Flags()
	flags.IntVar(&asked.width, "width", usualLine, "at most `N` columns")
	flags.BoolVar(&asked.once, "once", false, "write the line once and end")
	flags.BoolVar(&asked.follow, "follow", false, "go on, with a line for each change, where the line goes to a file or another program")
	replayFlags(cmd, &asked.screensAsked)
	flags.BoolVar(&asked.ascii, "ascii", false, "write ASCII characters only")
	return cmd
}

func (p Program) glance(named string, asked glanceAsked) (err error) {
	if asked.width < narrowestLine || asked.width > widestLine {
		return wrongUsef("--width is %d; give from %d to %d columns", asked.width, narrowestLine, widestLine)
	}
	if asked.once && asked.follow {
		return wrongUsef("--once writes the line once and --follow goes on; leave one of them out")
	}
	f, err := p.follow(named, asked.screensAsked)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.close()) }()
	if asked.once || !asked.follow && !p.Streams.OutTerminal {
		return p.glanceOnce(f, asked)
	}
	return p.glanceOn(f, asked)
}

func (p Program) glanceOnce(f *follower, asked glanceAsked) error {
	m, _, err := f.at(f.config.Clock.Now())
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintln(p.linesOut(asked.ascii), glanceLine(f, m, asked.width)); err != nil {
		return fmt.Errorf("writing the line: %w", err)
	}
	switch {
	case !f.opened:
		return noNight
	case m.Spoken.Call:
		return actNow
	}
	return nil
}

// glanceOn writes the line anew each second until the person leaves.
func (p Program) glanceOn(f *follower, asked glanceAsked) error {
	ctx, cancel := p.untilLeft()
	defer cancel()
	w := lineWriter{to: p.linesOut(asked.ascii), inPlace: p.Streams.OutTerminal}
	for {
		m, _, err := f.at(f.config.Clock.Now())
		line := glanceLine(f, m, asked.width)
		if err != nil {
			line = draw.Shorten(draw.Unicode, foreign.Line(err.Error()), asked.width)
		}
		if err := w.write(line); err != nil {
			return fmt.Errorf("writing the line: %w", err)
		}
		if errors.Is(wait(ctx, f.config.Clock), errEnded) {
			return w.end()
		}
	}
}

// lineWriter writes a line over the one before, by a carriage return and blanks alone, or a line for each change.
type lineWriter struct {
	to      io.Writer
	inPlace bool
	last    string
}

func (w *lineWriter) write(line string) error {
	if line == w.last {
		return nil
	}
	text := line + "\n"
	if w.inPlace {
		text = "\r" + line + strings.Repeat(" ", max(0, draw.Width(w.last)-draw.Width(line)))
	}
	w.last = line
	_, err := io.WriteString(w.to, text)
	return err
}

// end leaves the last line standing.
func (w *lineWriter) end() error {
	if !w.inPlace {
		return nil
	}
	_, err := io.WriteString(w.to, "\n")
	return err
}

// glanceLine is the night in one line of at most width columns.
func glanceLine(f *follower, m sentence.Moment, width int) string {
	if !f.opened {
		return joined(width, []string{"no night open", "no night"}, nil, m.Spoken.Mark, "none")
	}
	return joined(width, m.Spoken.Answer, m.Spoken.ToDo, m.Spoken.Mark, m.Spoken.Digits)
}

// joined joins answer, what to do and mark in the longest way that fits. They are dropped as the help says.
func joined(width int, answers, toDo, mark []string, digits string) string {
	full, bare := "", ""
	if len(mark) > 0 {
		full, bare = " · "+mark[0], " · "+mark[len(mark)-1]
	}
	var ways []string
	for _, do := range toDo {
		ways = append(ways, answers[0]+" · "+strings.TrimSuffix(do, ".")+full)
	}
	if n := len(toDo); n > 0 {
		for _, answer := range answers[:max(1, len(answers)-1)] { // those that say what is counted down to
			ways = append(ways, answer+" · "+strings.TrimSuffix(toDo[n-1], ".")+bare)
		}
	}
	for _, answer := range answers {
		ways = append(ways, answer+full, answer+bare)
	}
	ways = append(append(ways, answers...), digits)
	for i, way := range ways { // names of the kit's and of frames stand in them
		ways[i] = foreign.Line(way)
	}
	for _, way := range ways {
		if draw.Width(way) <= width {
			return way
		}
	}
	return draw.Shorten(draw.Unicode, ways[len(ways)-1], width)
}
