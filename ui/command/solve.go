package command

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os/signal"
	"runtime"
	"time"

	"github.com/spf13/cobra"

	"duskhand/checklist/frames/place"
	"duskhand/checklist/frames/solve"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/watch"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/decimal"
	"duskhand/sky/words"
)

const solveLong = `Tells where frames (FITS) look: measures their stars and lays them on the catalogue's. For each file it
says where the middle of the chip points, the camera angle, the scale, and whether the picture is
mirrored; or why it can't be told. Nothing is said that is not borne out by odds. Files are opened for
reading only.

It looks within 1.5° of the target that OBJECT names, or of --near, and then within 10°. The scale of a
pixel comes from the kit and the frame's binning, and is taken to be right to 3 %. Angle and mirror need
not be known.

The camera angle is the position angle of the direction of growing row number, FITS' first row lowest, north
through east, J2000, at the middle of the chip.

Exit codes:
  0  every file was solved
  1  a file was not (each says why), or it was stopped
  2  wrong use, or no kit

With --json one JSON document:
`

const solveExamples = `  duskhand solve ~/frames/2026-12-05/sub001.fits
  duskhand solve --near "84.67 -69.1" *.fits --json | jq '.frames[] | {file, camera_angle_deg}'
  duskhand solve --near "NGC 2070" test.fits`

type solveAsked struct {
	near   string
	asJSON bool
}

func (p Program) solveCommand(named *string) *cobra.Command {
	var asked solveAsked
	cmd := &cobra.Command{
		Use:     "solve FILE...",
		Short:   "Tell where frames look, and at which camera angle, by the stars on them",
		Long:    solveLong + helpOf[solveDocument](),
		Example: solveExamples,
		Args:    cobra.ArbitraryArgs, // counted below, in our words
		RunE: action(func(cmd *cobra.Command, files []string) error {
			if len(files) == 0 {
				return withHelp(cmd, wrongUsef("solve takes the frames to place, as: duskhand solve sub001.fits"))
			}
			return p.solve(*named, files, asked)
		}),
	}
	cmd.Flags().StringVar(&asked.near, "near", "", "look near `PLACE`: a name, or \"RA DEC\" in degrees, J2000; else what OBJECT names")
	cmd.Flags().BoolVar(&asked.asJSON, "json", false, "print JSON")
	completeWith(cmd, "near", func(*cobra.Command) []string { return p.targetNames(*named) })
	return cmd
}

// solvedFile is what came of one file.
type solvedFile struct {
	file   string
	placed *solve.Placement // nil when it is not
	why    string
	took   time.Duration
}

func (p Program) solve(named string, files []string, asked solveAsked) error {
	defer sparing()()
	path, err := p.findKit(named)
	if err != nil {
		return err
	}
	if path == "" {
		return wrongUsef("solve needs a kit for the scale of a pixel; make one with: duskhand kit new")
	}
	k, err := readKit(path)
	if err != nil {
		return err
	}
	var near *sky.J2000
	if asked.near != "" {
		meant, err := placeMeant(k, asked.near)
		if err != nil {
			return wrongUsef("--near: %w", err)
		}
		near = &meant
	}
	ctx, done := signal.NotifyContext(context.Background(), endingSignals()...)
	defer done()
	solved, err := p.solveAll(ctx, k, files, near)
	if err != nil {
		return err
	}
	if asked.asJSON {
		err = writeJSON(p.Streams.Out, solveDocumentOf(solved))
	} else {
		err = writeSolvedText(p.out(), solved)
	}
	if err != nil {
		return fmt.Errorf("writing where the frames look: %w", err)
	}
	return unsolved(solved)
}

func (p Program) solveAll(ctx context.Context, k kit.Kit, files []string, near *sky.J2000) ([]solvedFile, error) {
	read := survey.Reading(runtime.NumCPU(), k.MostPixels(), subs.Mosaic(k.Camera.Colour))
	solved := make([]solvedFile, 0, len(files))
	for _, file := range files {
		began := p.Clock.Now()
		s := solvedFile{file: file}
		placed, err := solveFile(ctx, read, k, file, near)
		switch {
		case ctx.Err() != nil:
			return nil, errors.New("stopped before all files were looked at; nothing was written")
		case err != nil:
			s.why = err.Error()
		default:
			s.placed = &placed
		}
		s.took = p.Clock.Now().Sub(began)
		solved = append(solved, s)
	}
	return solved, nil
}

// solveFile measures a frame and places it: near where it should look, and then further off.
func solveFile(ctx context.Context, read watch.Reader, k kit.Kit, file string, near *sky.J2000) (solve.Placement, error) {
	look, err := read(ctx, file, false)
	if err != nil {
		return solve.Placement{}, err
	}
	kind := look.Header.Kind
	if look.Measured == nil && (kind == subs.Light || kind == subs.UnknownKind) {
		return solve.Placement{}, errors.New(whyUnmeasured(look.Remarks))
	}
	if look.Measured == nil {
		return solve.Placement{}, fmt.Errorf("it is a %s by its header, and shows no sky", kind)
	}
	h := look.Header
	if near == nil {
		if h.Object == "" {
			return solve.Placement{}, errors.New("its header names no OBJECT; say with --near where it should look")
		}
		target, err := arrival.TargetOf(k, h.Object)
		if err != nil {
			return solve.Placement{}, fmt.Errorf("OBJECT names nothing that is known; say with --near where it should look: %w", err)
		}
		middle := framing.Middle(target)
		near = &middle
	}
	light := place.Light{Header: h, Measured: look.Measured}
	_, placed, err := place.Among(k, light, []place.Sought{{Name: h.Object, Place: *near}})
	if stated, kits, other := place.OtherScale(k, h); err != nil && other {
		err = fmt.Errorf("by its header a pixel covers %s, by the kit %s: it is another telescope's or a cut-out of a survey, and wants a kit of that scale (--kit)",
			words.Arcseconds(stated, 2), words.Arcseconds(kits, 2))
	}
	return placed, err
}

// placeMeant returns the place that a person means: two numbers in degrees, or a name.
func placeMeant(k kit.Kit, text string) (sky.J2000, error) {
	if numbers, err := decimal.List(text); err == nil && len(numbers) == 2 {
		ra, dec := numbers[0], numbers[1]
		if !(ra >= 0 && ra <= 360) || !(math.Abs(dec) <= 90) {
			return sky.J2000{}, fmt.Errorf("%q is no place; give right ascension from 0 to 360 and declination from -90 to 90, in degrees", text)
		}
		return sky.J2000{RA: sky.Angle(ra) * sky.Degree, Dec: sky.Angle(dec) * sky.Degree}, nil
	}
	target, err := k.FindTarget(text)
	if err != nil {
		return sky.J2000{}, fmt.Errorf("%w; or give \"RA DEC\" in degrees", err)
	}
	return framing.Middle(target), nil
}

func unsolved(solved []solvedFile) error {
	n := 0
	for _, s := range solved {
		if s.placed == nil {
			n++
		}
	}
	if n > 0 {
		return fmt.Errorf("%d of %d could not be placed; each one's line says why", n, len(solved))
	}
	return nil
}
