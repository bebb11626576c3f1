package form_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui/draw"
	"duskhand/ui/form"
	"duskhand/ui/testdata/emulator"
	"duskhand/ui/theme"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// person types into the form. Commands are carried out at once.
type person struct {
	t       *testing.T
	model   form.Model
	outcome form.Outcome
	charset draw.Charset
	written []map[string]string
	kept    []map[string]string
	trouble error // that writing meets
}

func open(t *testing.T, change func(*form.Config)) *person {
	t.Helper()
	p := &person{t: t}
	config := form.Config{Zone: "Australia/Broken_Hill", Now: func() time.Time { return time.Date(2026, 12, 5, 9, 0, 0, 0, time.UTC) },
		Write: func(answers map[string]string) (string, error) {
			p.written = append(p.written, answers)
			return "/home/me/kit.toml", p.trouble
		},
		Keep: func(typed map[string]string) error { p.kept = append(p.kept, typed); return p.trouble }}
	if change != nil {
		change(&config)
	}
	p.charset, p.model = config.Charset, form.New(config)
	p.fillWith(map[string]string{})
	return p
}

func (p *person) send(msg tea.Msg) { p.carryOut(p.update(msg)) }

func (p *person) carryOut(cmd tea.Cmd) {
	for waiting := []tea.Cmd{cmd}; len(waiting) > 0; waiting = waiting[1:] {
		if waiting[0] == nil {
			continue
		}
		switch msg := waiting[0]().(type) {
		case tea.BatchMsg:
			waiting = append(waiting, msg...)
		default:
			outcome := p.outcome
			waiting = append(waiting, p.update(msg))
			p.outcome = outcome // of the key
		}
	}
}

func (p *person) update(msg tea.Msg) (cmd tea.Cmd) {
	p.model, cmd, p.outcome = p.model.Update(msg)
	return cmd
}

// press sends keys by their names, or a text as it is typed.
func (p *person) press(keys ...string) *person {
	named := map[string]tea.KeyType{"enter": tea.KeyEnter, "tab": tea.KeyTab, "esc": tea.KeyEsc, "up": tea.KeyUp, "down": tea.KeyDown,
		"ctrl+s": tea.KeyCtrlS, "ctrl+u": tea.KeyCtrlU, "shift+tab": tea.KeyShiftTab, "left": tea.KeyLeft, "backspace": tea.KeyBackspace}
	for _, k := range keys {
		if kind, found := named[k]; found {
			p.send(tea.KeyMsg{Type: kind})
			continue
		}
		for _, r := range k {
			if r == ' ' {
				p.send(tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{r}})
				continue
			}
			p.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
	}
	return p
}

// example answers every field in the order of the form; "" leaves one.
func example() []string {
	return []string{"Saltbush Flat", "31°57'S 141°30'E, 210 m", "", "80", "480", "3.76", "6248", "4176", "-16", "16", "anywhere", "120", "0.5", "", "25", "", "L 60 s × 120, R, G, B 120 × 40", "NGC 2070"}
}

func (p *person) fill(texts []string) *person {
	for i, text := range texts {
		if i > 0 {
			p.press("enter")
		}
		p.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true})
	}
	return p
}

func (p *person) view(width, height int, palette theme.Palette) string {
	grid := draw.NewGrid(width, height)
	p.model.Draw(grid.Whole())
	if p.charset == draw.ASCII {
		grid.ToASCII()
	}
	renderer := lipgloss.NewRenderer(&strings.Builder{})
	renderer.SetColorProfile(termenv.TrueColor)
	return theme.New(renderer, palette).Render(grid)
}

func (p *person) text() string { return ansi.Strip(p.view(120, 40, theme.Night)) }

func (p *person) sees(words ...string) *person {
	p.t.Helper()
	for _, w := range words {
		require.Contains(p.t, strings.Join(strings.Fields(p.text()), " "), w)
	}
	return p
}

func TestFillingAndWriting(t *testing.T) {
	p := open(t, nil).sees("14 answers are open; no kit is written yet", "dark tonight not yet")
	p.fill(example()).sees("complete: ctrl+s writes it", "1.62″/px", "2.8° × 1.9°", "f/6", "97 µm", "travel 32°", "NGC 2070 from")
	assert.Empty(t, p.written)
	p.press("ctrl+s")
	require.Len(t, p.written, 1)
	data, err := kit.Template(p.written[0])
	require.NoError(t, err)
	k, err := kit.Read(data, "kit.toml")
	require.NoError(t, err)
	assert.InDelta(t, -31.95, k.Site.Place.Latitude.Degrees(), 1e-9)
	assert.InDelta(t, 141.5, k.Site.Place.Longitude.Degrees(), 1e-9)
	assert.InDelta(t, 210, k.Site.Place.ElevationMetres, 0)
	assert.Equal(t, "Australia/Broken_Hill", k.Site.Zone.String(), "the proposal was left standing")
	assert.Equal(t, kit.Example().Derotator.LargestRate, k.Derotator.LargestRate)
	assert.InDelta(t, 25, k.Mount.Floor.Degrees(), 1e-9)
	assert.InDelta(t, 80, k.Mount.Ceiling.Degrees(), 1e-9, "the default")
}

// Every question of the kit is asked, and can be answered by its own example.
func TestTheFormAsksEveryQuestion(t *testing.T) {
	p := open(t, nil).fill(example()).press("ctrl+s")
	require.Len(t, p.written, 1)
	data, err := kit.Template(p.written[0])
	require.NoError(t, err)
	k, err := kit.Read(data, "kit.toml")
	require.NoError(t, err)
	require.Len(t, k.Subs.Filters, 4)
	assert.Equal(t, "B", k.Subs.Filters[3].Name)
	assert.Equal(t, 120*time.Second, k.Subs.Filters[3].Exposure)
	assert.Equal(t, 40, k.Subs.Filters[3].Count)
}

func TestThePlaceInAnyNotation(t *testing.T) {
	for typed, want := range map[string]string{
		"-31.95, 141.5": "Understood: 31°57′ south, 141°30′ east, 0 m", "S31.95 E141.5": "31°57′ south, 141°30′ east",
		"-3157+14130+210/": "31°57′ south, 141°30′ east, 210 m", "geo:51,-4.25": "51°00′ north, 4°15′ west",
	} {
		open(t, nil).press("tab", typed).sees(want)
	}
	open(t, nil).press("tab", "95, 20").sees("place:", "the latitude 95° is beyond ±90°", "not right")
}

// A place that may be another is seen by its sky and its noon, beside the zone too.
func TestThePlaceIsToldWithItsSky(t *testing.T) {
	p := open(t, nil).press("tab", "-31.95, 141.5")
	p.sees("Understood: 31°57′ south, 141°30′ east, 0 m; σ Octantis").press("tab", "Australia/Broken_Hill")
	p.sees("σ Octantis stands 32° high, and noon is at 13:04 by your clock.")
	p.press("ctrl+u", "Asia/Kolkata").sees("noon is at 08:04 by your clock, 3 h 56 min from what Asia/Kolkata has")
	p.press("ctrl+u", "Asia/Dubai").sees("has noon at 06:34 by its clock, 5 h 26 min from the Sun's time at the longitude")
}

// A kit with four filters, a name and a typed zone costs few keys, each of them one press here; K is pressed outside of
// the form.
func TestAKitWithFourFiltersTakesFewKeys(t *testing.T) {
	p := open(t, func(c *form.Config) { c.Zone = "" })
	answers := []string{"Dry Lake", "-31.95 141.5", "Australia/Broken_Hill", "80", "480", "3.76", "6248", "4176", "-16", "", "e", "120", ".5",
		"", "", "", "L 60 120,R,G,B 120 40", "M 42"}
	presses := 1 // ctrl+s
	for i, text := range answers {
		if i > 0 {
			p.press("enter")
			presses++
		}
		p.press(text)
		presses += len(text)
	}
	p.sees("complete: ctrl+s writes it").press("ctrl+s")
	require.Len(t, p.written, 1)
	t.Logf("%d presses", presses)
	assert.LessOrEqual(t, presses+1, 111)
	assert.Equal(t, "16", p.written[0]["derotator.max_deg"], "as far the other way, if left")
}

func TestWhatIsLeftIsProposedByWhatIsTyped(t *testing.T) {
	p := open(t, nil).press("tab", "-31.95 141.5").press("shift+tab").sees("_31°57′ south,", "if left")
	p.fill([]string{"", "", "", "80", "480", "3.76", "6248", "4176", "-16,5", "", "any"})
	p.sees("travel 33°")
	p.press("up", "20").sees("travel 36.5°")
}

func TestAllAnsweredSaysWhereTheKitWillBe(t *testing.T) {
	p := open(t, func(c *form.Config) { c.Path = "/home/me/kit.toml" }).fill(example()[:3])
	assert.NotContains(t, p.text(), "/home/me")
	open(t, func(c *form.Config) { c.Path = "/home/me/kit.toml" }).fill(example()).
		sees("ctrl+s writes /home/me/kit.toml. Skyline, axis, guiding, alarms and keys stand there too")
}

// Numbers are taken with the comma and the minus that people have.
func TestNumbersWithCommaAndMinus(t *testing.T) {
	p := open(t, nil).fill(example()[:5]).press("enter", "3,76").press("enter", "enter", "enter", "−16")
	assert.NotContains(t, p.text(), "not right")
	p.press("enter", "16,5").sees("travel 32.5°")
}

func TestEachAnswerIsCheckedAsItIsTyped(t *testing.T) {
	p := open(t, nil).press("tab", "tab", "tab").sees("Give 5 to 5000 mm, for example 80.", "Clear aperture of the main telescope")
	p.press("2").sees("aperture: 2 is out of range; give 5 to 5000 mm", "not right")
	p.press("00")
	assert.NotContains(t, p.text(), "out of range")
	p.press("enter", "50").sees("focal length: 50 is too short for aperture = 200; are the two exchanged?")
	p.press("backspace", "backspace", "x").sees("is not a number; give 10 to 20000 mm")
}

func TestFaultsOfTwoAnswersTogetherStandAtTheField(t *testing.T) {
	p := open(t, nil).fill([]string{"", "", "", "", "", "", "", "", "16", "-16"})
	p.sees("upper limit: -16 is below lower limit = 16; give the smaller limit first")
	p.press("up", "ctrl+u", "-20")
	assert.NotContains(t, p.text(), "not right")
}

func TestTheProposedZoneIsDroppedWhereItCannotBe(t *testing.T) {
	p := open(t, nil).sees("Australia/Broken_Hill")
	p.press("tab", "51, -4")
	assert.NotContains(t, p.text(), "Australia", "nobody's clock there")
	p.press("tab").sees("Give an IANA time zone")
	p.press("Europe/Berlin").press("ctrl+u", "Australia/Perth").sees("from the Sun's time at the longitude")
}

func TestWritingWithoutAllAnswersGoesToTheFirstThatIsMissing(t *testing.T) {
	p := open(t, nil).press("Flat", "down", "-31.95, 141.5", "ctrl+s").sees("missing", "Clear aperture of the main telescope")
	assert.Empty(t, p.written)
	p = open(t, nil).fill(example()).press("up", "ctrl+u", "L 0 × 120", "ctrl+s").sees("filters: filter 1: exposure_s = 0 is out of range")
	assert.Empty(t, p.written)
}

func TestTroubleWithWritingIsToldAndNothingIsLost(t *testing.T) {
	p := open(t, nil).fill(example())
	p.trouble = errors.New("/home/me/kit.toml is there already and was left alone")
	p.press("ctrl+s").sees("was left alone", "Saltbush Flat", "NGC 2070")
	p.press("esc")
	assert.Equal(t, form.Leave, p.outcome)
	p.sees("Saltbush Flat")
}

func TestTheKeysGoRound(t *testing.T) {
	p := open(t, nil).press("up").sees("A name or number that the catalogue knows")
	p.press("enter").sees("What the place is called")
	p.press("abc", "left", "left", "X").sees("aXbc")
}

// Fast typing asks for one night at a time, and the last answer counts.
func TestOneNightIsComputedAtATime(t *testing.T) {
	m := open(t, func(c *form.Config) { c.Keep = nil }).press("tab").model
	var cmds []tea.Cmd
	for _, r := range "-31.95, 141.5" {
		var cmd tea.Cmd
		m, cmd, _ = m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		if cmd != nil {
			cmds = append(cmds, cmd)
		}
	}
	require.Len(t, cmds, 1)
	m, again, _ := m.Update(cmds[0]())
	require.NotNil(t, again, "more was typed meanwhile")
	m, again, _ = m.Update(again())
	assert.Nil(t, again)
	p := &person{t: t, model: m}
	p.sees("dark tonight 6 h")
}

func TestAPlaceWithoutDarkness(t *testing.T) {
	p := open(t, func(c *form.Config) {
		c.Now = func() time.Time { return time.Date(2026, 6, 21, 20, 0, 0, 0, time.UTC) }
	})
	p.press("tab", "69.6, 18.9").sees("dark tonight never")
}

func scenes() map[string]func(*person) {
	return map[string]func(*person){
		"empty": func(*person) {},
		"half":  func(p *person) { p.fill(example()[:6]) },
		"fault": func(p *person) { p.fill(example()[:9]).press("enter", "-20") },
		"place": func(p *person) { p.fill(example()[:2]) },
		"full":  func(p *person) { p.fill(example()) },
	}
}

func TestGoldenForm(t *testing.T) {
	for name, scene := range scenes() {
		for _, size := range [][2]int{{80, 24}, {120, 40}, {60, 20}} {
			t.Run(fmt.Sprintf("%s-%dx%d", name, size[0], size[1]), func(t *testing.T) {
				p := open(t, nil)
				scene(p)
				path := filepath.Join("testdata", fmt.Sprintf("%s-%dx%d-night.golden", name, size[0], size[1]))
				got := p.view(size[0], size[1], theme.Night)
				if *update {
					require.NoError(t, os.MkdirAll("testdata", 0o755))
					require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
				}
				want, err := os.ReadFile(path)
				require.NoError(t, err, "run with -update to write it, then read it")
				assert.Equal(t, string(want), got)
			})
		}
	}
}

// Rules that hold at every size, in every palette and charset: the size, the colours, and the field that is
// typed into in sight.
func TestTheFormKeepsTheRulesOfScreens(t *testing.T) {
	for name, scene := range scenes() {
		for _, charset := range []draw.Charset{draw.Unicode, draw.ASCII} {
			p := open(t, func(c *form.Config) { c.Charset = charset })
			scene(p)
			for _, palette := range theme.Palettes() {
				for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}, {60, 20}, {40, 12}, {30, 8}, {20, 5}, {8, 2}, {1, 1}} {
					view := p.view(size[0], size[1], palette)
					keepsTheRules(t, name, view, size[0], size[1], palette, charset)
				}
			}
		}
	}
}

func keepsTheRules(t *testing.T, name, view string, width, height int, palette theme.Palette, charset draw.Charset) {
	t.Helper()
	lines := strings.Split(view, "\n")
	require.Len(t, lines, height)
	for _, line := range lines {
		require.LessOrEqual(t, ansi.StringWidth(line), width)
	}
	text := ansi.Strip(view)
	marker := "›"
	if charset == draw.ASCII {
		marker = ">"
		for _, r := range text {
			require.Less(t, r, rune(128), "ASCII only")
		}
	}
	if width >= 20 {
		require.Contains(t, text, marker, "%s at %dx%d", name, width, height)
		require.Contains(t, text, "_", "the cursor, %s at %dx%d", name, width, height)
	}
	if palette != theme.Night {
		return
	}
	screen := emulator.New(width, height)
	_, err := screen.Write([]byte(strings.ReplaceAll(view, "\n", "\r\n")))
	require.NoError(t, err)
	for y := range height {
		for x := range width {
			if cell := screen.Cell(x, y); cell.Char != ' ' && cell.Text != nil {
				_, green, blue, _ := cell.Text.RGBA()
				require.Zero(t, green+blue, "text at %d,%d is not red", x, y)
			}
		}
	}
}

// Deleting the word ahead from the last character read behind the end of the text.
func TestDeletingTheWordAheadFromTheLastCharacter(t *testing.T) {
	p := open(t, nil)
	p.press("Mulga", "left")
	p.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'d'}, Alt: true})
	require.Contains(t, p.kept, map[string]string{"site.name": "Mulg"})
}
