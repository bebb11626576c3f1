package command

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"duskhand/checklist"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/checklist/told"
	"duskhand/checklist/unwritten"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/clock"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

const tellLong = `Says what the operator would have said with a key, so that a script can: it is judged by the night as it
is, and refused with the same words. While the screens run, they write it down and show it; otherwise it is
written into the journal at once. When the command ends with exit code 0 it is on the disk.

Flags come before the event. Angles are the derotator's, in degrees as its scale shows them.

What can be said:
`

const tellExamples = `  duskhand tell subs-started L
  duskhand tell rewound -16
  duskhand tell note "thin cloud from the west"`

// tellWriter is how this command signs its events.
const tellWriter = "duskhand tell"

func (p Program) tellCommand(named *string) *cobra.Command {
	var wait float64
	cmd := &cobra.Command{
		Use:     "tell EVENT [ARGUMENT...]",
		Short:   "Say what happens in the night, from a script",
		Long:    tellLong + eventsHelp(),
		Example: tellExamples,
		Args:    cobra.ArbitraryArgs,
		RunE: action(func(cmd *cobra.Command, args []string) error {
			if !(wait > 0 && wait <= 60) {
				return wrongUsef("--wait is %g; give more than 0 and at most 60 seconds", wait)
			}
			if flag := flagAmong(cmd, args); flag != "" {
				return wrongUsef("%s stands behind the event, where words are; flags come before it, as: duskhand tell %[1]s … %s …", flag, args[0])
			}
			return p.tell(*named, args, time.Duration(wait*float64(time.Second)))
		}),
	}
	numberVar(cmd.Flags(), &wait, "wait", 5, "give up when the running program has not taken it after `SECONDS`")
	cmd.ValidArgsFunction = func(_ *cobra.Command, before []string, begun string) ([]string, cobra.ShellCompDirective) {
		return p.tellWords(*named, before, begun)
	}
	cmd.Flags().SetInterspersed(false) // so that -16 is an angle
	return cmd
}

// flagAmong returns the first of the words that is a flag of the command, "" if none is: it would be taken for a word.
func flagAmong(cmd *cobra.Command, words []string) string {
	for _, word := range words {
		name, long := strings.CutPrefix(word, "--")
		name, _, _ = strings.Cut(name, "=")
		if long && cmd.Flags().Lookup(name) != nil {
			return "--" + name
		}
	}
	return ""
}

func eventsHelp() string {
	var out strings.Builder
	for _, e := range told.Events() {
		fmt.Fprintf(&out, "  %-22s %s\n", e.Usage(), e.Meaning)
	}
	return strings.TrimRight(out.String(), "\n")
}

func (p Program) tell(named string, words []string, wait time.Duration) error {
	k, path, err := p.openKit(named)
	if err != nil {
		return err
	}
	if k.Example {
		return errors.New("there is no kit file, and the built-in example keeps no journal; make one with: duskhand kit new")
	}
	said, err := told.Action(k, words)
	if err != nil {
		return wrongUse(err)
	}
	if p.journalPath() == "" {
		return errors.New("there is no home folder for the journal; set XDG_STATE_HOME or HOME")
	}
	j, err := journal.Open(p.journalPath(), tellWriter, p.Clock.Now)
	var held *journal.HeldError
	if errors.As(err, &held) {
		return p.handOver(k, path, said, words, wait)
	}
	if err != nil {
		return err
	}
	return p.writeDown(j, k, path, said)
}

// handOver gives words to the program that writes the journal. If that ends while we wait, we write
// ourselves what it has not taken.
func (p Program) handOver(k kit.Kit, path string, said checklist.Action, words []string, wait time.Duration) error {
	letter, err := inbox.Post(inbox.Beside(p.journalPath()), words, p.Clock.Now(), wait)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), wait)
	defer cancel()
	var own *journal.Journal
	answer, err := letter.Wait(ctx, func() bool {
		if own == nil {
			// Most tries fail, since the program lives; only one that succeeds says anything.
			own, _ = journal.Open(p.journalPath(), tellWriter, p.Clock.Now)
		}
		return own != nil
	})
	if errors.Is(err, inbox.ErrNotTaken) && own != nil {
		return p.writeDown(own, k, path, said)
	}
	if own != nil {
		err = errors.Join(err, own.Close())
	}
	switch {
	case errors.Is(err, inbox.ErrNotTaken):
		return fmt.Errorf("the program that writes the journal did not take it within %s; nothing was written", wait)
	case err != nil:
		return err
	case !answer.Accepted:
		return errors.New(answer.Text)
	}
	_, err = fmt.Fprintln(p.out(), answer.Text)
	return err
}

// writeDown judges and appends as the only writer, and lets the journal go.
func (p Program) writeDown(j *journal.Journal, k kit.Kit, path string, said checklist.Action) (err error) {
	defer func() { err = errors.Join(err, j.Close()) }()
	if report, damaged := j.Salvage(); damaged {
		fmt.Fprintln(p.messages(), "duskhand: "+report.Words(k.Site.Zone))
	}
	if open := j.Exposed(); open != "" {
		fmt.Fprintln(p.messages(), "duskhand: "+open)
	}
	if taken := unwritten.TakeInAll(j, p.journalPath()); taken != "" {
		fmt.Fprintln(p.Streams.Err, "duskhand: "+taken)
	}
	now := p.Clock.Now()
	night := plan.DateOf(k.Site.Place, now).String()
	events, err := j.Events(night)
	if err != nil {
		return err
	}
	log := checklist.Fold(events)
	steps, _, err := stepsBeside(path)
	if err != nil { // what happened is written down all the same
		steps = checklist.Steps()
	}
	steps = steps.For(k)
	var words map[string]string // the facts that stand in the steps
	write := func(a checklist.Action) (journal.Event, error) {
		kind, body, err := steps.Say(log, a, k.Site.Zone)
		if err != nil {
			return journal.Event{}, err
		}
		if body, err = steps.Keep(log, kind, body, now, facts.Standing(log, words, a)); err != nil {
			return journal.Event{}, err
		}
		e, err := j.Append(night, kind, now, body)
		log = log.Next(e)
		return e, err
	}
	opening := log.Opening(path, k.Targets[0].Name, facts.CountOf(p.Clock.Reading()), now) // as the screens do
	if opening != nil && (len(events) == 0 || clock.SteadyOutlivesPrograms()) {
		if _, err := write(opening); err != nil {
			return err
		}
	}
	run := facts.For(k, plan.DateOf(k.Site.Place, now), log, now, nil).At(now)
	words = say.Known(run, run.Tonight.StarsAt(now))
	said = run.Completed(said)
	if choice, ok := run.ChoiceBefore(said); ok {
		if _, _, err := steps.Say(log, said, k.Site.Zone); err != nil {
			return err
		}
		if _, err := write(choice); err != nil {
			return err
		}
	}
	early := say.Early(run.Moment, said)
	e, err := write(said)
	var waiting *journal.WaitingError
	if errors.As(err, &waiting) {
		return fmt.Errorf("the journal can't be written, and this has not been noted: %w", waiting.Cause)
	}
	if err != nil {
		return err
	}
	if axis := learnedFrom(k, e, log, now); axis != nil {
		if _, err := write(axis); err != nil {
			return err
		}
	}
	if renewed := j.Renewed(); renewed != "" {
		fmt.Fprintln(p.Streams.Err, "duskhand: "+renewed)
	}
	if by, ahead := log.Ahead(now); ahead {
		fmt.Fprintf(p.Streams.Err, "duskhand: noted; but %s. %s\n", say.Behind(by)[0], say.BehindRemedy()[0])
	}
	for _, sentence := range early {
		fmt.Fprintln(p.Streams.Err, "duskhand: noted; but: "+sentence)
	}
	_, err = fmt.Fprintln(p.out(), toldText(e, k.Site.Zone))
	return err
}

// learnedFrom returns what a sight tells of the axis, as the screens note it; nil for other events and where
// nothing can be learned.
func learnedFrom(k kit.Kit, e journal.Event, log checklist.Night, now time.Time) checklist.Action {
	if e.Kind != checklist.KindSighted || !checklist.WithReadout(e) {
		return nil
	}
	return facts.For(k, plan.DateOf(k.Site.Place, now), log, now, nil).LearnFromSights().Action
}

// toldText confirms an event: "rewound to −16°, 23:41:07".
func toldText(e journal.Event, zone *time.Location) string {
	return checklist.Words(e) + ", " + words.Second(e.At, zone)
}
