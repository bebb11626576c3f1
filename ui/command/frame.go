package command

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/frame"
)

const frameLong = `Says how the target stands on the chip: the camera angle of the run that begins then and what another
angle would cost, which way to nudge the mount, whether there is a guide star, what the frames of all runs
of the night share, and the fields of a mosaic with the order in which to take them.

Camera angles are position angles of the chip's up, from north through east, J2000. Without --at the
instant is the beginning of the target's first window. Nothing is written: on the Frame screen the angle
and the middle become part of the night, in the kit file they are target.camera_angle_deg,
target.middle_east_arcmin and target.middle_north_arcmin.

With --json one JSON document:
`

const frameExamples = `  duskhand frame
  duskhand frame --target "NGC 1365" --angle 90
  duskhand frame --target "Large Magellanic Cloud" --grid 2x3 --overlap 20`

// frameAsked is what the person said, as typed.
type frameAsked struct {
	on, at, target, angle, grid string
	overlapPercent, residual    float64
	asJSON                      bool
}

func (p Program) frameCommand(named *string) *cobra.Command {
	var asked frameAsked
	cmd := &cobra.Command{
		Use:     "frame",
		Short:   "Say what the chip sees, at which angle, and what all runs share",
		Long:    frameLong + helpOf[frameDocument](),
		Example: frameExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			if !cmd.Flags().Changed("target") {
				asked.target = everyTarget
			}
			told, err := p.frame(*named, asked)
			switch {
			case err != nil:
				return err
			case asked.asJSON:
				return writeJSON(p.Streams.Out, frameDocumentOf(told))
			}
			return writeFrameText(p.out(), told)
		}),
	}
	flags := cmd.Flags()
	flags.StringVar(&asked.on, "on", "", "the night that begins on the evening of `DATE`, as 2026-12-05")
	flags.StringVar(&asked.at, "at", "", "the instant `TIME`: RFC 3339, \"2026-12-05 21:05\", or 21:05 of that night")
	flags.StringVar(&asked.target, "target", "", "for the target `NAME`; the kit's first if not given")
	flags.StringVar(&asked.angle, "angle", "", "the wanted camera angle `DEG`, instead of the kit's")
	flags.StringVar(&asked.grid, "grid", "", "a mosaic of `ROWSxCOLUMNS`, as 2x3")
	numberVar(flags, &asked.overlapPercent, "overlap", 100*frame.UsualOverlap, "by how many `PERCENT` of a field neighbours overlap")
	numberVar(flags, &asked.residual, "residual", 0, "say what a rate of `DEG` an hour that the derotator leaves would trail")
	flags.BoolVar(&asked.asJSON, "json", false, "print JSON")
	completeWith(cmd, "target", func(*cobra.Command) []string { return p.targetNames(*named) })
	return cmd
}

func (p Program) frame(named string, asked frameAsked) (frame.Told, error) {
	planned, err := p.courses(named, asked.on, asked.target)
	if err != nil {
		return frame.Told{}, err
	}
	target := planned.targets[0]
	log := checklist.Night{Target: &checklist.Target{Name: target.target.Name, Star: target.target.Star}}
	instant := planned.night.Span.From
	if windows := target.course.Windows(); len(windows) > 0 {
		instant = windows[0].From
	}
	if asked.at != "" {
		if instant, err = timeOfNight(planned.night.Kit, planned.night.Date, asked.at); err != nil {
			return frame.Told{}, err
		}
	}
	date := plan.DateOf(planned.night.Kit.Site.Place, instant)
	tonight := facts.For(planned.night.Kit, date, log, instant, nil)
	wanted := tonight.FramingOf()
	if err := asked.change(&wanted); err != nil {
		return frame.Told{}, err
	}
	log.Framings = []checklist.Framing{wanted} // as if it had been said
	run := facts.For(planned.night.Kit, date, log, instant, tonight).At(instant)
	told := frame.Told{Frame: run.FrameAt(wanted), Run: run}
	if asked.residual != 0 {
		told.AtResidual(sky.Rate(asked.residual) * sky.Rate(sky.DegreePerHour))
	}
	return told, nil
}

// change takes the flags into the framing.
func (asked frameAsked) change(f *checklist.Framing) error {
	if asked.angle != "" {
		angle, err := sky.ParseAngle(asked.angle)
		if err != nil {
			return wrongUsef("--angle: %w", err)
		}
		if angle < 0 || angle >= sky.Turn {
			return wrongUsef("--angle = %s is no position angle; give one from 0 to below 360", asked.angle)
		}
		f.CameraAngle = &angle
	}
	if asked.grid == "" {
		return nil
	}
	rows, columns, ok := strings.Cut(strings.ToLower(strings.ReplaceAll(asked.grid, "×", "x")), "x")
	var err1, err2 error
	f.Rows, err1 = strconv.Atoi(strings.TrimSpace(rows))
	f.Columns, err2 = strconv.Atoi(strings.TrimSpace(columns))
	f.Overlap = asked.overlapPercent / 100
	if !(f.Overlap >= 0 && f.Overlap <= 0.9) {
		return wrongUsef("--overlap = %g can't be; give per cent of a field from 0 to 90", asked.overlapPercent)
	}
	if !ok || err1 != nil || err2 != nil {
		return wrongUsef("--grid = %q is no grid; give rows and columns as 2x3", asked.grid)
	}
	if _, _, err := checklist.Say(checklist.Night{}, checklist.FrameTarget{Framing: *f}, time.UTC); err != nil {
		return wrongUsef("--grid, --overlap: %w", err)
	}
	return nil
}

func writeFrameText(to io.Writer, told frame.Told) error {
	var out strings.Builder
	k := told.Run.Kit
	if k.Example {
		out.WriteString("EXAMPLE: the built-in kit, all equipment invented; make your own with: duskhand kit new\n\n")
	}
	local := words.WallOf(told.Run.Night.Span.From, told.Run.Night.Span.To, k.Site.Zone)
	fmt.Fprintf(&out, "Frame of %s at %s (%s), %s\n", told.Target.Name, local.Minute(told.Run.Now), words.MinuteUTC(told.Run.Now), local.Heading())
	width, height := told.Sensor.PlaneSize()
	fmt.Fprintf(&out, "Field     %s × %s, %s a pixel\n", words.Degrees(width, 2), words.Degrees(height, 2), words.Arcseconds(told.Sensor.PerPixel, 2))
	_, ways := told.Answer()
	fmt.Fprintf(&out, "Answer    %s\n\n", ways[0])
	for _, said := range told.Sentences() {
		out.WriteString(said.Text + "\n")
	}
	writeReadings(&out, told)
	writePanels(&out, told, local)
	_, err := io.WriteString(to, out.String())
	return err
}

// readingsShown is into how many parts the travel is cut for the table of readings.
const readingsShown = 8

// writeReadings lists what camera angle each reading of the derotator gives when the run begins, and how long
// it lasts from there.
func writeReadings(out *strings.Builder, told frame.Told) {
	span, ok := told.NextSpan()
	if !ok {
		return
	}
	out.WriteString("\nderotator   camera angle   run\n")
	for _, s := range framing.AngleTable(told.Run.Course, span, told.Run.Kit.Derotator.Travel()/readingsShown) {
		fmt.Fprintf(out, "%9s %14s   %s\n", words.SignedTenths(s.Reading), words.Direction(told.Run.Course.OfJ2000(s.CameraAngle), 1), words.Lasting(s.Run.Until.Sub(span.From)))
	}
}

// writePanels lists the fields of a mosaic in the order in which they are taken.
func writePanels(out *strings.Builder, told frame.Told, local words.Wall) {
	m := told.Mosaic
	if m == nil {
		return
	}
	out.WriteString("\nfield   right ascension   declination   camera angle\n")
	for _, panel := range m.Panels {
		fmt.Fprintf(out, "%-7s %16s %13s %14s\n", frame.PanelName(panel), words.Direction(panel.Centre.RA, 4),
			words.SignedDegrees(panel.Centre.Dec, 4), words.Direction(panel.CameraAngle, 1))
	}
	for i, run := range m.Night.Runs {
		fmt.Fprintf(out, "\nrun %d, %s to %s:", i+1, local.MinuteFrom(run.From), local.Minute(run.To))
		for _, visit := range run.Visits {
			fmt.Fprintf(out, " %s %s", frame.PanelName(visit.Panel), local.MinuteFrom(visit.From))
		}
	}
	if len(m.Night.Runs) > 0 {
		out.WriteString("\n")
	}
}
