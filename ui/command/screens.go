package command

import (
	"time"

	"github.com/muesli/termenv"

	"duskhand/checklist/subs/watch"
	"duskhand/plan/kit"
	"duskhand/sky/decimal"
	"duskhand/ui"
	"duskhand/ui/bell"
	"duskhand/ui/clock"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// exampleStart is when the example night is opened: 23:14 at its site, a quarter of an hour before the
// first rewind.
func exampleStart() time.Time { return time.Date(2026, time.December, 5, 12, 44, 0, 0, time.UTC) }

// screensAsked is what the person said about the screens, as typed.
type screensAsked struct {
	at, speed, palette string
	ascii              bool
}

func (p Program) screens(named string, asked screensAsked) error {
	defer sparing()()
	if _, err := theme.ParsePalette(asked.palette); err != nil {
		return wrongUsef("--palette: %w", err)
	}
	if !p.Streams.InTerminal || !p.Streams.OutTerminal {
		return wrongUsef("the screens need a terminal; for plain text use: duskhand plan")
	}
	if p.Env("TERM") == "dumb" {
		return wrongUsef("the screens need a terminal that can place the cursor, and TERM is dumb; for plain text use: duskhand plan")
	}
	config, err := p.screensConfig(named, asked)
	if err != nil {
		return err
	}
	return p.Screens(config)
}

// screensConfig is what the screens are given for the kit that is named or found.
func (p Program) screensConfig(named string, asked screensAsked) (ui.Config, error) {
	palette, err := theme.ParsePalette(asked.palette)
	if err != nil {
		return ui.Config{}, wrongUsef("--palette: %w", err)
	}
	k, path, err := p.openKit(named)
	if err != nil {
		return ui.Config{}, err
	}
	steps, _, err := stepsBeside(path)
	if err != nil {
		return ui.Config{}, err
	}
	now, err := p.clockFor(k, asked)
	if err != nil {
		return ui.Config{}, err
	}
	profile, charset := p.profile(), draw.Unicode
	if asked.ascii || p.asciiLocale() {
		charset = draw.ASCII
	}
	// A terminal that has no colour, as a VT100, can do bold and reverse all the same.
	noColor := p.noColor() || profile == termenv.Ascii
	config := ui.Config{
		Kit: k, Steps: steps, KitPath: path, Clock: now, JournalPath: p.journalPath(), PagesFolder: p.pagesFolder(), ReplaysFolder: p.replaysFolder(), Notify: bell.MessagesOf(p.Env),
		FreeBytes: watch.FreeBytes, Card: p.cardOnScreen,
		Palette: theme.Choose(palette.String(), noColor, profile), NoColor: noColor, Profile: profile,
		Charset: charset, In: p.Streams.In, Out: p.Streams.Out,
	}
	config.Opening = checkClock(now.Machine(), k.Site, now.Now()).line()
	switch {
	case k.Example:
		config.NewKit = p.firstRun(asked)
	case !now.Replaying():
		config.NewKit = p.ownKit(path, asked)
	}
	return config, nil
}

// clockFor returns the world's clock, or a replay for the example and for whoever asks for one.
func (p Program) clockFor(k kit.Kit, asked screensAsked) (clock.Clock, error) {
	speed, err := parseSpeed(asked.speed)
	if err != nil {
		return clock.Clock{}, err
	}
	switch {
	case asked.at != "":
		start, err := parseAt(asked.at, k.Site.Zone)
		return clock.System().Replay(start, speed), err
	case k.Example:
		return clock.System().Replay(exampleStart(), speed), nil
	case asked.speed != "":
		return clock.Clock{}, wrongUsef("--speed needs a replay, and with a kit of your own and no --at the clock is the world's; add --at TIME, as --at \"2026-12-05 23:14\"")
	}
	return p.Clock, nil
}

// The slowest and the fastest replay: below the one nothing seems to move, above the other a night is
// over in less than ten seconds.
const slowest, fastest = 0.1, 3600

func parseSpeed(text string) (float64, error) {
	if text == "" {
		return 1, nil
	}
	speed, err := decimal.Parse(text)
	if err != nil || speed < slowest || speed > fastest {
		return 0, wrongUsef("--speed is %q; give a number from %g to %g, the seconds of the night in one second", text, slowest, float64(fastest))
	}
	return speed, nil
}
