package command_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui/command"
	"duskhand/ui/testdata/clocks"
)

// What README and the guide's other pages show is what the program prints. With -update they are rewritten.
func TestREADMEIsTrue(t *testing.T) {
	requests := `{"ask":"object","name":"Tarantula Nebula","id":1}
{"ask":"rotation","site":{"lat_deg":-31.95,"lon_deg":141.5,"elevation_m":210},"utc":"2026-12-05T12:44:00Z","star":{"ra_deg":84.6765,"dec_deg":-69.1009},"axis":{"tilt_deg":2.4,"toward_az_deg":210}}
{"ask":"rotation","utc":"2026-12-05T12:44:00Z"}
`
	isTrue(t, readme(), map[string]string{"run": screenOf(t, "run")})
	isTrue(t, "guide-screens.md", map[string]string{
		"frame":  screenOf(t, "frame"),
		"subs":   screenOf(t, "subs"),
		"decide": screenOf(t, "decide"),
	})
	isTrue(t, "guide-scripts.md", map[string]string{
		"plan":    "$ duskhand plan --target \"NGC 2070\"\n" + printed(t, "", "plan", "--target", "NGC 2070"),
		"glance":  "$ duskhand glance --once\n" + printed(t, "", "glance", "--once"),
		"compute": "$ duskhand compute < requests\n" + printed(t, requests, "compute"),
	})
}

// The samples of the kit file in README and the guide are one kit, taken together, and it is in order.
func TestREADMEsKitIsInOrder(t *testing.T) {
	var samples []string
	for _, path := range pages() {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		for _, found := range regexp.MustCompile("(?s)```toml\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
			samples = append(samples, found[1])
		}
	}
	require.Greater(t, len(samples), 3)
	_, err := kit.Read([]byte(strings.Join(samples, "\n")), "README.md")
	assert.NoError(t, err)
}

// README names every command, so that none is found by luck.
func TestREADMENamesEveryCommand(t *testing.T) {
	text, err := os.ReadFile(readme())
	require.NoError(t, err)
	help := printed(t, "", "--help")
	_, list, _ := strings.Cut(help, "Available Commands:\n")
	list, _, _ = strings.Cut(list, "\n\n")
	for _, line := range strings.Split(list, "\n") {
		name := strings.Fields(line)[0]
		if name != "help" {
			assert.Contains(t, string(text), "`duskhand "+name)
		}
	}
}

// README is read at one sitting; what is more stands in the guide.
func TestREADMEIsShort(t *testing.T) {
	text, err := os.ReadFile(readme())
	require.NoError(t, err)
	assert.LessOrEqual(t, strings.Count(string(text), "\n"), 220)
}

// pages returns the paths of README and of the guide's pages.
func pages() []string {
	guide, _ := filepath.Glob("guide*.md")
	return append([]string{readme()}, guide...)
}

func readme() string { return filepath.Join("..", "..", "README.md") }

// isTrue holds a page's marked blocks against what they show, made anew by name. With -update the page is
// rewritten.
func isTrue(t *testing.T, path string, fresh map[string]string) {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	block := regexp.MustCompile("(?s)(<!-- shown: ([a-z-]+) -->\n```text\n)(.*?)(```)")
	seen := map[string]bool{}
	made := block.ReplaceAllStringFunc(string(text), func(found string) string {
		parts := block.FindStringSubmatch(found)
		require.Contains(t, fresh, parts[2])
		seen[parts[2]] = true
		return parts[1] + fresh[parts[2]] + parts[4]
	})
	for name := range fresh {
		assert.True(t, seen[name], "%s has its place on the page", name)
	}
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(made), 0o644))
		return
	}
	assert.Equal(t, made, string(text), "run with -update, then read it")
}

// screenOf returns a golden screen of 80 × 24 without its colours.
func screenOf(t *testing.T, scene string) string {
	t.Helper()
	screen, err := os.ReadFile("../testdata/TestGoldenScreens/" + scene + "-80x24-night.golden")
	require.NoError(t, err)
	return withoutColour(string(screen))
}

// withoutColour returns a screen as text: no escapes, no blanks at the ends of lines.
func withoutColour(screen string) string {
	var out strings.Builder
	for _, line := range strings.Split(regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(screen, ""), "\n") {
		out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return out.String()
}

// printed returns what a command prints in the example night, at 23:14 by its clock.
func printed(t *testing.T, in string, args ...string) string {
	t.Helper()
	var out, messages bytes.Buffer
	home := t.TempDir()
	env := func(name string) string {
		return map[string]string{"HOME": home, "LANG": "C.UTF-8", "XDG_CONFIG_DIRS": home}[name]
	}
	p := command.Program{Streams: command.Streams{In: strings.NewReader(in), Out: &out, Err: &messages}, Env: env,
		Clock: clocks.Fixed(time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC))}
	p.Run(args)
	return out.String()
}
