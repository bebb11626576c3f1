package command

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/spf13/cobra"

	"duskhand/sky/foreign"
	"duskhand/sky/words"
	"duskhand/ui/sentence"
)

const watchLong = `Follows the night and writes one plain sentence whenever something changes, with the local time first: a
rewind that comes near or is due, a run begun or ended, the target leaving its window, dusk and dawn,
the next step of the checklist, and whatever another duskhand or a script puts into the journal. For
screen readers, logs and other programs; the sentences are those of the screens. There are no escapes,
and nothing is written twice.

It only reads: it runs beside the screens, and before there is a journal. In the example, and in a
replay (--at), it tells what was said in that night as its time comes; the example's operator follows
the plan to its end.

It ends with the night, at the site's solar noon; with Ctrl-C; and when its input, a pipe or a terminal, is
closed. Exit codes:
  0  it ended so
  1  the kit can't be read, or nobody takes the lines any more
  2  wrong use`

const watchExamples = `  duskhand watch --lines
  duskhand watch --lines | while read -r line; do say "$line"; done   # say is yours
  duskhand watch --lines --speed 60                                   # the example night, a minute each second`

func (p Program) watchCommand(named *string) *cobra.Command {
	var asked screensAsked
	var lines bool
	cmd := &cobra.Command{
		Use:     "watch --lines",
		Short:   "Follow the night as plain sentences, one a line",
		Long:    watchLong,
		Example: watchExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if !lines {
				return withHelp(cmd, wrongUsef("watch writes lines and wants to be told so: duskhand watch --lines; the screens are: duskhand"))
			}
			return p.watch(*named, asked)
		}),
	}
	flags := cmd.Flags()
	flags.BoolVar(&lines, "lines", false, "write a plain sentence a line, without escapes")
	replayFlags(cmd, &asked)
	flags.BoolVar(&asked.ascii, "ascii", false, "write ASCII characters only")
	return cmd
}

// replayFlags are those by which the screens are told of another time.
func replayFlags(cmd *cobra.Command, asked *screensAsked) {
	cmd.Flags().StringVar(&asked.at, "at", "", "replay from `TIME`, as the screens do")
	cmd.Flags().StringVar(&asked.speed, "speed", "", "in a replay, let `N` seconds of the night pass in one (0.1 to 3600; 1 if not given)")
}

// linesOut is where lines go, as they are: in ASCII if that is wanted or the locale asks for it.
func (p Program) linesOut(ascii bool) io.Writer {
	if ascii || p.asciiLocale() {
		return asciiWriter{p.Streams.Out}
	}
	return p.Streams.Out
}

func (p Program) watch(named string, asked screensAsked) (err error) {
	f, err := p.follow(named, asked)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.close()) }()
	ctx, cancel := p.untilLeft()
	defer cancel()
	t := teller{follower: f, out: foreign.Writer{To: p.linesOut(asked.ascii)}, messages: p.messages()}
	for {
		now := f.config.Clock.Now()
		if over, err := t.upTo(now); over || err != nil {
			return err
		}
		if errors.Is(wait(ctx, f.config.Clock), errEnded) {
			return nil
		}
	}
}

// teller writes a night's sentences.
type teller struct {
	follower *follower
	out      io.Writer
	messages io.Writer

	before  sentence.Moment
	times   words.Wall
	begun   bool
	trouble string // told already
}

// A replay, or a computer that was busy, goes over the time that has passed in steps of at most longestStep, on
// its multiples, so that what comes does not depend on when one looks. Beyond longestGap of the present, after a
// sleep of the computer or a jump of its clock, it is not gone over: what was due then is no news.
const (
	longestStep = 10 * time.Second
	longestGap  = 5 * time.Minute
)

// upTo tells what has happened up to an instant; over is true when the night is.
func (t *teller) upTo(now time.Time) (over bool, err error) {
	if !t.begun {
		return false, t.begin(now)
	}
	at := t.before.Run.Now
	if t.follower.live() && (now.Sub(at) > longestGap || now.Before(at)) { // or its clock was put back
		at = now.Add(-time.Nanosecond)
	}
	for at.Before(now) {
		next := at.Truncate(longestStep).Add(longestStep)
		if next.After(now) {
			if !t.follower.live() {
				return false, nil
			}
			next = now
		}
		at = next
		if over, err := t.step(at); over || err != nil {
			return over, err
		}
	}
	return false, nil
}

func (t *teller) begin(now time.Time) error {
	if !t.follower.live() {
		now = now.Truncate(longestStep)
	}
	m, _, err := t.follower.at(now)
	t.report(err)
	t.before, t.begun = m, true
	night, site := m.Run.Night, m.Run.Kit.Site.Name
	t.times = words.WallOf(night.Span.From, night.Span.To, t.follower.config.Kit.Site.Zone)
	mark := "The"
	if len(m.Spoken.Mark) > 0 {
		mark = m.Spoken.Mark[0] + ": the"
	}
	said := []string{fmt.Sprintf("%s night of %s at %s, %s.", mark, night.Date, site, t.times.Heading())}
	if !t.follower.opened {
		said = append(said, "No night is open in the journal yet.")
	} else {
		said = append(said, sentence.Opening(m)...)
	}
	return t.write(now, said)
}

func (t *teller) step(now time.Time) (over bool, err error) {
	night := t.before.Run.Night
	if !now.Before(night.Span.To) {
		return true, t.write(now, []string{sentence.DateOver(night.Date)})
	}
	before, opened := t.before, t.follower.opened
	m, fresh, err := t.follower.at(now)
	t.report(err)
	t.before = m
	if !t.follower.opened {
		return false, nil
	}
	said := sentence.Changes(before, m, fresh)
	if !opened {
		said = append(sentence.Changes(m, m, fresh), sentence.Opening(m)...)
	}
	return false, t.write(now, said)
}

func (t *teller) write(at time.Time, said []string) error {
	for _, s := range said {
		if _, err := fmt.Fprintf(t.out, "%s %s\n", t.times.Minute(at), foreign.Line(s)); err != nil {
			return fmt.Errorf("writing the lines: %w", err)
		}
	}
	return nil
}

// report tells what is wrong with the journal, once for as long as it stays the same.
func (t *teller) report(err error) {
	trouble := ""
	if err != nil {
		trouble = err.Error()
	}
	if trouble != "" && trouble != t.trouble {
		fmt.Fprintln(t.messages, "duskhand: "+trouble)
	}
	t.trouble = trouble
}
