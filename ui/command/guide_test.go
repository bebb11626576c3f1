package command_test

import (
	"io"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
	"duskhand/ui/command"
	"duskhand/ui/keys"
	"duskhand/ui/testdata/clocks"
	"duskhand/ui/theme"
)

// excerpt is some lines of a screen of the example night: opened at a local time, or a golden scene; after some
// keys; from the line that holds a text on; as far as a column, 0 for all.
type excerpt struct {
	at, golden string
	keys       string
	from       string
	lines      int
	columns    int
}

// excerpts are what the guide shows, by name.
func excerpts() map[string]excerpt {
	return map[string]excerpt{
		"promises":   {at: "2026-12-05 20:16", keys: "9", from: "See that forecast", lines: 2},
		"worth":      {at: "2026-12-05 19:40", keys: "7", from: "Worth it", lines: 2},
		"runs":       {at: "2026-12-05 19:40", keys: "2", from: "run    from", lines: 4},
		"cables":     {at: "2026-12-05 20:40", keys: "9", from: "See that every cable", lines: 6},
		"pair":       {at: "2026-12-05 20:54", keys: "3", from: "then Achernar", lines: 12, columns: 39},
		"focus":      {at: "2026-12-05 21:06", keys: "4", from: "main: focus", lines: 4, columns: 39},
		"frame":      {at: "2026-12-05 21:06", keys: "5", from: "camera angle", lines: 5, columns: 39},
		"rewind":     {at: "2026-12-05 21:12", keys: "9", from: "Turn the derotator to", lines: 3},
		"wait":       {at: "2026-12-05 21:20", keys: "1", from: "minutes and seconds", lines: 7},
		"run":        {golden: "run", from: "minutes and seconds", lines: 8},
		"still":      {golden: "subs", from: "field holds still", lines: 1},
		"soon":       {golden: "alarms", from: "soon to act", lines: 2},
		"call":       {golden: "rewind", from: "now, before the limit", lines: 3},
		"call-line":  {golden: "rewind", from: "Stop the subs", lines: 1},
		"rewind-now": {at: "2026-12-05 23:31", keys: "1", from: "Rewind to", lines: 1},
		"off":        {golden: "off", from: "the derotator is off", lines: 1},
		"done":       {at: "2026-12-06 04:13", keys: "1", from: "the last window", lines: 1},
		"stow":       {at: "2026-12-06 04:13", keys: "1", from: "Derotator off", lines: 1},
	}
}

// What the guide shows is what the screens show. With -update it is rewritten.
func TestGuideIsTrue(t *testing.T) {
	fresh := map[string]string{"glance": printed(t, "", "glance", "--once")}
	for name, e := range excerpts() {
		fresh[name] = e.cut(t)
	}
	isTrue(t, "guide.md", fresh)
}

func TestGuideIsPrintedWithoutItsMarks(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "guide"))
	assert.True(t, strings.HasPrefix(s.out, "# A night with duskhand\n"))
	assert.NotContains(t, s.out, "<!--")
	assert.Contains(t, s.out, "minutes and seconds until the rewind")

	s.env["LANG"] = "C"
	require.Equal(t, command.Done, s.run("", "guide"))
	for _, r := range s.out {
		require.Less(t, r, rune(128), "ASCII only")
	}
}

func TestGuideHasItsPages(t *testing.T) {
	s := newShell(t)
	for page, begins := range map[string]string{
		"night": "# A night with duskhand", "screens": "# The screens", "kit": "# What a kit can ask for",
		"scripts": "# duskhand beside other programs", "changes": "# Changes",
	} {
		require.Equal(t, command.Done, s.run("", "guide", page), s.err)
		assert.True(t, strings.HasPrefix(s.out, begins), page)
		assert.NotContains(t, s.out, "<!--")
	}
	assert.Equal(t, command.WrongUse, s.run("", "guide", "steps"))
	assert.Contains(t, s.err, `the guide has no page "steps"; give one of night, screens, kit, scripts, changes`)
}

// The guide's cautions are the project's handbook's, section 13, none left out.
func TestGuideHasTheCautions(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "guide"))
	page := strings.Join(strings.Fields(s.out), " ")
	for _, words := range []string{"unfiltered telescope", "safety screw first", "power-up and at every rewind", "residual-current protection",
		"Lithium batteries in frost", "aviation law", "drive home", "electrical code and licensed practice"} {
		assert.Contains(t, page, words)
	}
}

func (e excerpt) cut(t *testing.T) string {
	t.Helper()
	screen := ""
	if e.golden != "" {
		screen = screenOf(t, e.golden)
	} else {
		screen = withoutColour(exampleScreen(t, e.at, e.keys))
	}
	lines := strings.Split(screen, "\n")
	for i, line := range lines {
		if !strings.Contains(line, e.from) {
			continue
		}
		require.LessOrEqual(t, i+e.lines, len(lines), e.from)
		var out strings.Builder
		for _, kept := range lines[i : i+e.lines] {
			if runes := []rune(kept); e.columns > 0 && len(runes) > e.columns {
				kept = string(runes[:e.columns])
			}
			out.WriteString(strings.TrimRight(kept, " ") + "\n")
		}
		return out.String()
	}
	require.Contains(t, screen, e.from)
	return ""
}

// exampleScreen opens the example night at a local time, presses keys and returns the screen of 80 × 24.
func exampleScreen(t *testing.T, at, keys string) string {
	t.Helper()
	k := kit.Example()
	now, err := time.ParseInLocation("2006-01-02 15:04", at, k.Site.Zone)
	require.NoError(t, err)
	var model tea.Model = ui.New(ui.Config{Kit: k, Clock: clocks.Fixed(now), Palette: theme.Night, Profile: termenv.Ascii, Out: io.Discard})
	var carryOut func(tea.Cmd)
	send := func(msg tea.Msg) {
		next, cmd := model.Update(msg)
		model = next
		carryOut(cmd)
	}
	carryOut = func(cmd tea.Cmd) {
		if cmd == nil {
			return
		}
		switch msg := cmd().(type) {
		case nil:
		case tea.BatchMsg:
			for _, c := range msg {
				carryOut(c)
			}
		default:
			send(msg)
		}
	}
	send(tea.WindowSizeMsg{Width: 80, Height: 24})
	carryOut(model.Init())
	for _, key := range keys {
		send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{key}})
	}
	return model.View()
}

// Every key that guide and README tell to press is one of the table behind the help, or the number of a screen.
func TestKeysOnThePagesExist(t *testing.T) {
	known := strings.Split("123456789", "")
	for _, row := range keys.Rows() {
		known = append(known, row.Keys...)
	}
	found := 0
	for _, path := range pages() {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		named := regexp.MustCompile("`([^`\n]|space|tab|enter|esc|left|right|up|down|shift\\+tab)`").FindAllStringSubmatch(string(text), -1)
		for _, each := range named {
			assert.Contains(t, known, each[1], path)
		}
		found += len(named)
	}
	require.Greater(t, found, 30)
}
