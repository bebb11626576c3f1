package command

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/checklist/journal"
	"duskhand/checklist/record"
	"duskhand/plan"
)

const recordLong = `Prints what the journal knows of a night, for the person who stacks the frames: each target's runs with their
camera angles, the subs of each by filter with their times and numbers, which runs have frames that coincide
and how much of a frame all share; rewinds and the pauses that they made; temperatures, notes, and what failed
or was skipped; the calibration frames that are still owed; and totals over all nights with what is left of
the kit's goal.

Subs are counted as on the screens: from when they were said to start and stop, with the exposures and
overheads of the kit as it is now. Times are local to the kit's zone; in --json and --csv UTC.

Lights that were watched as they came and placed by their stars stand in --json, and with --lights as a
table of their own: where the middle of each looks, its camera angle there and at the target, its scale,
and whether it is mirrored.

Without --on it is the journal's last night. The date is that of the evening.

If the journal is damaged, the record of what can be read comes all the same; standard error says what is
missing, and the exit code is 1.

--import takes into the journal what a file holds: events that waited for the journal when the screens
were left on a full disk, or another journal, as a backup copy or one that was set aside. What the
journal has already is not taken again. The screens and "tell" take in by themselves what waits where it
was left.`

const recordExamples = `  duskhand record
  duskhand record --on 2026-12-05 --markdown > night.md
  duskhand record --all --csv > runs.csv
  duskhand record --import /tmp/duskhand-unwritten-1234/events.json`

// recordAsked is what the person asked for, as typed.
type recordAsked struct {
	on, imported, journal            string
	all, json, csv, lights, markdown bool
}

func (p Program) recordCommand(named *string) *cobra.Command {
	var asked recordAsked
	cmd := &cobra.Command{
		Use:     "record",
		Short:   "Print what was shot, run by run, and what is left to do",
		Long:    recordLong,
		Example: recordExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if cmd.Flags().Changed("import") {
				return p.importEvents(asked.imported)
			}
			return p.record(*named, asked)
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.on, "on", "", "the night that began on the evening of `DATE`, as 2026-12-05")
	flags.BoolVar(&asked.all, "all", false, "all nights of the journal")
	flags.BoolVar(&asked.json, "json", false, "print JSON")
	flags.BoolVar(&asked.csv, "csv", false, "print a table of runs and filters")
	flags.BoolVar(&asked.lights, "lights", false, "print a table (CSV) of the lights that were placed by their stars")
	flags.BoolVar(&asked.markdown, "markdown", false, "print Markdown")
	flags.StringVar(&asked.journal, "journal", "", "a journal at `FILE` instead of one's own: that of a replay that was kept")
	flags.StringVar(&asked.imported, "import", "", "take into the journal what `FILE` holds, and print no record")
	cmd.MarkFlagsMutuallyExclusive("json", "csv", "lights", "markdown")
	for _, other := range []string{"on", "all", "json", "csv", "lights", "markdown", "journal"} {
		cmd.MarkFlagsMutuallyExclusive("import", other)
	}
	cmd.MarkFlagsMutuallyExclusive("on", "all")
	return cmd
}

func (p Program) record(named string, asked recordAsked) error {
	k, _, err := p.openKit(named)
	if err != nil {
		return err
	}
	path := p.journalPath()
	switch {
	case asked.journal != "":
		path = asked.journal
	case k.Example:
		return errors.New("there is no kit file, and the built-in example keeps no journal; make one with: duskhand kit new")
	}
	nights, damaged := nightsOf(path)
	if len(nights) == 0 && damaged != nil {
		return damaged
	}
	shown, err := chooseNights(nights, asked)
	if err != nil {
		return errors.Join(damaged, err)
	}
	r := record.Of(k, nights, func(date plan.Date) bool { return slices.Contains(shown, date) }, p.Clock.Now())
	if err := asked.writer(r, p); err != nil {
		return err
	}
	if damaged != nil {
		return fmt.Errorf("this record may be short: %w", damaged)
	}
	return nil
}

func (a recordAsked) writer(r record.Record, p Program) error {
	write, to := r.Text, p.out()
	switch {
	case a.json:
		write, to = r.JSON, p.Streams.Out
	case a.csv:
		write, to = r.CSV, p.Streams.Out
	case a.lights:
		write, to = r.LightsCSV, p.Streams.Out
	case a.markdown:
		write, to = r.Markdown, p.Streams.Out
	}
	return write(io.Writer(to))
}

// nightsOf reads all nights of the journal at path, oldest first. Nights that bear no date are none of the sky's.
//
// Error: the journal can't be read, or is damaged; with the nights of what can be read.
func nightsOf(path string) (nights []record.Events, err error) {
	j, err := journal.OpenReader(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no journal yet at %s; the screens make one, or: duskhand tell", path)
	}
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, j.Close()) }()
	all, err := j.Since(0)
	byNight := map[plan.Date]int{}
	for _, e := range all {
		date, err := plan.ParseDate(e.Night)
		if err != nil {
			continue
		}
		i, known := byNight[date]
		if !known {
			i = len(nights)
			byNight[date], nights = i, append(nights, record.Events{Date: date})
		}
		nights[i].Events = append(nights[i].Events, e)
	}
	slices.SortFunc(nights, func(a, b record.Events) int { return strings.Compare(a.Date.String(), b.Date.String()) })
	if len(nights) == 0 && err == nil {
		return nil, fmt.Errorf("the journal at %s has no night yet", path)
	}
	return nights, err
}

func chooseNights(nights []record.Events, asked recordAsked) (dates []plan.Date, err error) {
	for _, n := range nights {
		dates = append(dates, n.Date)
	}
	switch {
	case asked.all:
		return dates, nil
	case asked.on == "":
		return dates[len(dates)-1:], nil
	}
	date, err := plan.ParseDate(asked.on)
	if err != nil {
		return nil, wrongUsef("--on: %w", err)
	}
	if !slices.Contains(dates, date) {
		return nil, fmt.Errorf("the journal has nothing of the night of %s; its nights are %s to %s, %d in all", date, dates[0], dates[len(dates)-1], len(dates))
	}
	return []plan.Date{date}, nil
}
