package command

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"time"

	"github.com/spf13/cobra"

	"duskhand/checklist"
	"duskhand/checklist/journal"
	"duskhand/checklist/unwritten"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky/decimal"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

const roomLong = `Says whether a sub of SECONDS, started now, still ends, with the kit's overhead, before the rewind must be
called: for a capture script to ask before each exposure. It reads the journal beside the screens, and does
not need them. The rewind is called by the early bound of the limit, less the kit's margin; where the window
of the target closes first, that counts.

It prints the seconds left until then, and when it is, by the site's clock and in UTC. Exit codes:
  0  yes, it fits
  1  no: rewind first, or stop for tonight
  2  unknown: no journal of tonight, one that is damaged, the derotator off or its angle not known, a clock that
     shows less than what the journal has, a kit that can't be read; standard error or "why" says what is missing

With --json one object: "answer" (yes, no, unknown), "exposure_s", "seconds_left", "longest_s" (the
longest sub that still fits), "by" (UTC), "by_local" (by the site's clock), "before" (rewind or window),
"rewind_by" (UTC, null when none comes before the window closes), "why" (null unless unknown).`

const roomExamples = `  duskhand room 300 && shoot
  duskhand room 300 --json | jq .longest_s`

// The exit codes of room.
const (
	fits    = verdict(0)
	tooLate = verdict(1)
	unknown = verdict(2)
)

func (p Program) roomCommand(named *string) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:     "room SECONDS",
		Short:   "Say whether a sub still fits before the next rewind",
		Long:    roomLong,
		Example: roomExamples,
		Args:    cobra.ArbitraryArgs, // counted below, in our words
		RunE: action(func(cmd *cobra.Command, args []string) error {
			exposure, err := parseExposure(args)
			if err != nil {
				return withHelp(cmd, err)
			}
			return p.room(*named, exposure, asJSON)
		}),
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return cmd
}

// longestSub bounds what can be asked: a night.
const longestSub = 24 * time.Hour

func parseExposure(args []string) (time.Duration, error) {
	if len(args) != 1 {
		return 0, wrongUsef("room takes one number, the length of the sub in seconds, as: duskhand room 300")
	}
	seconds, err := decimal.Parse(args[0])
	if err != nil || seconds < 0 || seconds > longestSub.Seconds() {
		return 0, wrongUsef("the length of the sub is %q; give seconds from 0 to %.0f", args[0], longestSub.Seconds())
	}
	return time.Duration(seconds * float64(time.Second)), nil
}

// room is what is left of a run.
type room struct {
	exposure, overhead time.Duration
	now, by            time.Time
	zone               *time.Location
	rewind             bool  // by is when a rewind must be called, and not when the window closes
	why                error // nothing is known: why
}

// left returns how long it is until the last sub must be over.
func (r room) left() time.Duration { return r.by.Sub(r.now) }

func (r room) longest() time.Duration { return max(0, r.left()-r.overhead) }

func (r room) verdict() verdict {
	switch {
	case r.why != nil:
		return unknown
	case r.exposure+r.overhead <= r.left():
		return fits
	}
	return tooLate
}

func (p Program) room(named string, exposure time.Duration, asJSON bool) error {
	r := p.measure(named)
	r.exposure = exposure
	write := p.writeRoom
	if asJSON {
		write = p.writeRoomJSON
	}
	if err := write(r); err != nil {
		fmt.Fprintf(p.messages(), "duskhand: writing the answer: %v\n", err)
		return unknown // the script has not heard the answer
	}
	return r.verdict()
}

// measure finds the room by the same facts as the screens.
func (p Program) measure(named string) room {
	k, _, err := p.openKit(named)
	if err != nil {
		return room{why: err}
	}
	now := p.Clock.Now()
	date := plan.DateOf(k.Site.Place, now)
	log, err := p.tonight(k, date)
	if err != nil {
		return room{why: err}
	}
	by, ahead := log.Ahead(now)
	switch {
	case ahead:
		return room{why: fmt.Errorf("%s. %s", say.Behind(by)[0], say.BehindRemedy()[0])}
	case !log.DerotatorOn:
		return room{why: errors.New("the derotator is off; when it is on and seen to turn, say so")}
	case log.Anchor == nil:
		return room{why: errors.New("nobody knows the derotator's angle; read it and say so")}
	}
	t := facts.For(k, date, log, now, nil)
	r := room{overhead: k.Subs.Overhead, now: now, zone: k.Site.Zone}
	if call, ok := t.Call(now); ok {
		r.by, r.rewind = call.By, call.Limit.Early.OK && call.By.Before(call.Window.To)
		if from := call.Window.From; now.Before(from) && call.Window.OpensAfter != plan.ByDarkness && call.Window.OpensAfter != plan.ByTurn {
			r.by, r.rewind = now, false // in the keyhole, or behind something: no sub is worth taking
		}
	} else if n := len(t.Windows); n > 0 {
		r.by = t.Windows[n-1].To
	} else {
		r.by = now // the target is never usable tonight
	}
	return r
}

// tonight folds what the journal has of a night.
func (p Program) tonight(k kit.Kit, date plan.Date) (checklist.Night, error) {
	if k.Example {
		return checklist.Night{}, errors.New("there is no kit file, and the built-in example keeps no journal; make one with: duskhand kit new")
	}
	j, err := journal.OpenReader(p.journalPath())
	if errors.Is(err, fs.ErrNotExist) {
		return checklist.Night{}, fmt.Errorf("there is no journal yet at %s; open the screens, or say what happens with: duskhand tell", p.journalPath())
	}
	if err != nil {
		return checklist.Night{}, err
	}
	events, err := j.Events(date.String())
	if err = errors.Join(err, j.Close()); err != nil {
		return checklist.Night{}, err
	}
	if waiting, err := waitingBeside(p.journalPath(), date); err != nil {
		return checklist.Night{}, err
	} else if waiting > 0 {
		return checklist.Night{}, fmt.Errorf("%s of tonight could not be written when the program was left and %s not in the journal yet; "+
			"open the screens, or say what happens with: duskhand tell", unwritten.Counted(waiting), areOrIs(waiting))
	}
	if len(events) == 0 {
		return checklist.Night{}, fmt.Errorf("the journal has nothing of tonight, %s", date)
	}
	return checklist.Fold(events), nil
}

func (p Program) writeRoom(r room) error {
	if r.why != nil {
		p.complain(fmt.Errorf("unknown: %w", r.why))
		return nil
	}
	answer, before := "yes", "rewind by"
	if r.verdict() == tooLate {
		answer = "no"
	}
	if !r.rewind {
		before = "no rewind before the window closes at"
	}
	_, err := fmt.Fprintf(p.out(), "%s: %d s left, room for a sub of %d s; %s %s (%s)\n", answer, whole(r.left()), whole(r.longest()), before,
		words.SecondWithZone(r.by, r.zone), instant(r.by.Truncate(time.Second)))
	return err
}

// whole rounds down: nothing is promised that is not there.
func whole(d time.Duration) int64 { return int64(math.Floor(d.Seconds())) }
