package ui_test

import (
	"path/filepath"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/form"
	"duskhand/ui/testdata/clocks"
	"duskhand/ui/theme"
)

// owner is in a night of their own, whose kit file stands here.
type owner struct {
	*session
	file []byte
	kept map[string]string
}

func ownerOf(t *testing.T, width, height int) *owner {
	t.Helper()
	data, err := kit.Template(map[string]string{"site.name": "Dry Lake", kit.PlaceKey: `31°57'S 141°30'E, 210 m`, "site.zone": "Australia/Broken_Hill",
		"derotator.min_deg": "-16", "derotator.max_deg": "16", "derotator.stops": "ends", "derotator.largest_rate_deg_per_h": "120",
		"derotator.rewind_deg_per_s": "0.5", "optics.aperture_mm": "80", "optics.focal_length_mm": "480", "camera.pixel_um": "3.76",
		"camera.width_px": "6248", "camera.height_px": "4176", kit.FiltersKey: "L 60 s × 120, R, G, B 120 × 40", "target.name": "NGC 253"})
	require.NoError(t, err)
	o := &owner{session: &session{t: t, now: time.Date(2026, 11, 24, 11, 0, 0, 0, time.UTC)}, file: data}
	journal := filepath.Join(t.TempDir(), "journal.db")
	var config func() ui.Config
	config = func() ui.Config {
		k, err := kit.Read(o.file, "kit.toml")
		require.NoError(t, err)
		return ui.Config{Kit: k, Clock: clocks.Led(func() time.Time { return o.now }), Palette: theme.Night, Profile: termenv.TrueColor, Out: &o.out,
			JournalPath: journal, NewKit: &ui.NewKit{Config: form.Config{
				Path: "kit.toml", Now: func() time.Time { return o.now },
				Old: func() (map[string]string, []string, error) {
					typed, err := kit.Typed(o.file)
					return typed, []string{"axis"}, err
				},
				Keep:  func(changed map[string]string) error { o.kept = changed; return nil },
				Typed: func() (map[string]string, error) { return map[string]string{}, nil },
				Write: func(changed map[string]string) (string, error) {
					revised, err := kit.Revise(o.file, "kit.toml", changed)
					if err == nil {
						o.file = revised
					}
					return "kit.toml", err
				},
			}, Open: func(string) (ui.Config, error) { return config(), nil },
			}}
	}
	startWith(o.session, width, height, func(c *ui.Config) { *c = config() })
	return o
}

func TestKChangesTheKitOfOnesOwnNight(t *testing.T) {
	t.Parallel()
	o := ownerOf(t, 80, 24)
	o.press("n").press(typed("before")...).sees("undo: note")
	before := string(o.file)
	o.press("K").sees("Your kit", "nothing is changed yet", "Dry Lake", "ends", "The kit is kit.toml.", "It also holds axis")
	o.send(tea.KeyMsg{Type: tea.KeyUp})
	o.sees("L 60 × 120, R 120 × 4…").press("enter")
	o.send(tea.KeyMsg{Type: tea.KeyCtrlS})
	o.sees("nothing is changed; kit.toml stays as it is")
	o.press("-", "x").sees("1 answer changed: ctrl+s writes", "Dry Lake-x")
	assert.Equal(t, map[string]string{"site.name": "Dry Lake-x"}, o.kept)
	o.press("esc").seesNot("Your kit").press("K").sees("Dry Lake-x")
	o.send(tea.KeyMsg{Type: tea.KeyCtrlS})
	o.seesNot("Your kit").sees("Dry Lake-x", "goes on with the kit as it is now written in kit.toml")
	assert.Contains(t, string(o.file), `name = "Dry Lake-x"`)
	assert.Len(t, string(o.file), len(before)+2, "nothing else has changed")
	o.press("1").sees("undo: note") // the night has what was said before
}

func TestAChangeThatMakesNoKitIsRefusedInTheForm(t *testing.T) {
	t.Parallel()
	o := ownerOf(t, 80, 24)
	o.press("K")
	for range 8 {
		o.press("enter")
	}
	for range 3 {
		o.send(tea.KeyMsg{Type: tea.KeyBackspace})
	}
	o.sees("1 answer is open; the file is as it was").press("2", "0").sees("not right")
	before := string(o.file)
	o.send(tea.KeyMsg{Type: tea.KeyCtrlS})
	o.sees("Your kit", "give the smaller limit first")
	assert.Equal(t, before, string(o.file))
}
