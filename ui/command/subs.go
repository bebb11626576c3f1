package command

import (
	"context"
	"errors"
	"fmt"
	"os/signal"

	"github.com/spf13/cobra"

	"duskhand/checklist/subs/survey"
	"duskhand/plan/kit"
)

const subsLong = `Reads the frames (FITS) in folders and all folders in them, measures the stars of the lights, and prints
a line for each frame in the order of the exposures: its start, exposure, filter and kind; stars, their
half-flux diameter and elongation, the background in ADU; how far the camera has turned since the first
light of its group, and how fast since the light before. Below that it says for each group what the
field does. Files are opened for reading only. A folder may also be a single file.

A group is lights that follow one another in one framing: another object, another size of picture, a
pause of hours or a turned camera begins a new one. Turning is positive through east if the file's first
row is the bottom one and nothing mirrors the picture; pixels alone can't tell, so go by the size.

Seconds of arc, local times and how fast the field would turn with the derotator off come from the kit:
its scale, site and axis, and its target or the catalogue's object that OBJECT names, or else the one of
--target. Without a kit there are pixels and UTC only.

Exit codes:
  0  every frame was read
  1  a frame or folder could not be read (each is named), there was none, or it was stopped
  2  wrong use

With --json one JSON document:
`

const subsExamples = `  duskhand subs ~/frames/2026-12-05
  duskhand subs ~/frames --target "NGC 2070" --workers 2
  duskhand subs ~/frames --json | jq '.groups[] | {object, rate_deg_per_h, predicted_deg_per_h}'`

// mostWorkers bounds how many frames are measured at a time; each needs memory for a whole frame.
const mostWorkers = 64

type subsAsked struct {
	target  string
	asJSON  bool
	workers int
}

func (p Program) subsCommand(named *string) *cobra.Command {
	var asked subsAsked
	cmd := &cobra.Command{
		Use:     "subs FOLDER...",
		Short:   "Measure a folder of frames, and say what the field does from one to the next",
		Long:    subsLong + helpOf[subsDocument](),
		Example: subsExamples,
		Args:    cobra.ArbitraryArgs, // counted below, in our words
		RunE: action(func(cmd *cobra.Command, folders []string) error {
			if len(folders) == 0 {
				return withHelp(cmd, wrongUsef("subs takes the folders that the frames are in, as: duskhand subs ~/frames"))
			}
			return p.subs(*named, folders, asked)
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.target, "target", "", "hold the lights against the target `NAME`, whatever OBJECT says")
	flags.BoolVar(&asked.asJSON, "json", false, "print JSON")
	flags.IntVar(&asked.workers, "workers", 1, "measure `N` frames at a time, all on as many processors as there are")
	completeWith(cmd, "target", func(*cobra.Command) []string { return p.targetNames(*named) })
	return cmd
}

// surveyed is what the command prints: the frames in order and the groups of their lights.
type surveyed struct {
	kit    *kit.Kit // nil without one
	frames []*folderFrame
	groups []survey.Group
	skies  skies
}

func (p Program) subs(named string, folders []string, asked subsAsked) error {
	defer sparing()()
	if asked.workers < 1 || asked.workers > mostWorkers {
		return wrongUsef("--workers is %d; give from 1 to %d", asked.workers, mostWorkers)
	}
	s, err := p.forSubs(named, asked.target)
	if err != nil {
		return err
	}
	ctx, done := signal.NotifyContext(context.Background(), endingSignals()...)
	defer done()
	if s.frames, err = findFrames(ctx, folders); err != nil {
		return err
	}
	bar := p.bar()
	err = s.measure(ctx, asked.workers, bar)
	if err = errors.Join(err, bar.end()); err != nil {
		return err
	}
	write := writeSubsText
	to := p.out()
	if asked.asJSON {
		write, to = writeSubsJSON, p.Streams.Out
	}
	if err := write(to, s); err != nil {
		return fmt.Errorf("writing the frames: %w", err)
	}
	return s.failures()
}

// forSubs opens the kit, if there is one: the example's scale would be wrong for anybody's frames.
func (p Program) forSubs(named, target string) (s surveyed, err error) {
	path, err := p.findKit(named)
	if err != nil {
		return surveyed{}, err
	}
	if path == "" {
		if target != "" {
			return surveyed{}, wrongUsef("--target needs a kit for the site and the mount; make one with: duskhand kit new")
		}
		return surveyed{}, nil
	}
	k, err := readKit(path)
	if err != nil {
		return surveyed{}, err
	}
	s = surveyed{kit: &k, skies: newSkies(k)}
	if target != "" {
		chosen, err := findTarget(k, target)
		if err != nil {
			return surveyed{}, err
		}
		s.skies.chosen = &chosen
	}
	return s, nil
}

// failures counts what could not be read.
func (s surveyed) failures() error {
	unread := 0
	for _, f := range s.frames {
		if f.unread != "" {
			unread++
		}
	}
	if unread > 0 {
		return fmt.Errorf("%d of %d could not be read or measured; each one's line says why", unread, len(s.frames))
	}
	return nil
}
