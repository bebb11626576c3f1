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

	"duskhand/ui/clock"
	"duskhand/ui/command"
)

// shown returns what README shows, made anew: the golden Run screen without its colours, and the output
// of commands on the example night.
func shown(t *testing.T) map[string]string {
	screen, err := os.ReadFile("../testdata/TestGoldenScreens/run-80x24-night.golden")
	require.NoError(t, err)
	var lines []string
	for _, line := range strings.Split(regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(string(screen), ""), "\n") {
		lines = append(lines, strings.TrimRight(line, " "))
	}
	requests := `{"ask":"object","name":"Tarantula Nebula","id":1}
{"ask":"rotation","site":{"lat_deg":-31.95,"lon_deg":141.5,"elevation_m":210},"utc":"2026-12-05T12:44:00Z","star":{"ra_deg":84.6765,"dec_deg":-69.1009},"axis":{"tilt_deg":2.4,"toward_az_deg":210}}
{"ask":"rotation","utc":"2026-12-05T12:44:00Z"}
`
	return map[string]string{
		"run":     strings.Join(lines, "\n") + "\n",
		"plan":    "$ duskhand plan --target \"NGC 2070\"\n" + printed(t, "", "plan", "--target", "NGC 2070"),
		"compute": "$ duskhand compute < requests\n" + printed(t, requests, "compute"),
	}
}

func printed(t *testing.T, in string, args ...string) string {
	t.Helper()
	var out, messages bytes.Buffer
	home := t.TempDir()
	env := func(name string) string {
		return map[string]string{"HOME": home, "LANG": "C.UTF-8", "XDG_CONFIG_DIRS": home}[name]
	}
	p := command.Program{Streams: command.Streams{In: strings.NewReader(in), Out: &out, Err: &messages}, Env: env,
		Clock: clock.Fixed(time.Date(2026, 12, 5, 12, 44, 0, 0, time.UTC))}
	p.Run(args)
	return out.String()
}

// What README shows is what the program prints. With -update it is rewritten.
func TestREADMEIsTrue(t *testing.T) {
	path := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	block := regexp.MustCompile("(?s)(<!-- shown: ([a-z]+) -->\n```text\n)(.*?)(```)")
	fresh := shown(t)
	seen := 0
	made := block.ReplaceAllStringFunc(string(text), func(found string) string {
		seen++
		parts := block.FindStringSubmatch(found)
		require.Contains(t, fresh, parts[2])
		return parts[1] + fresh[parts[2]] + parts[4]
	})
	assert.Equal(t, len(fresh), seen, "every picture has its place")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(made), 0o644))
		return
	}
	assert.Equal(t, made, string(text), "run with -update, then read it")
}
