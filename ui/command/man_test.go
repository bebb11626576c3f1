package command_test

import (
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/command"
)

// helps returns the help of every command, as the program itself lists them, by command line.
func helps(t *testing.T) map[string]string {
	t.Helper()
	found := map[string]string{}
	commandLine := regexp.MustCompile(`(?m)^  ([a-z]+) +\S`)
	var visit func(words []string)
	visit = func(words []string) {
		s := newShell(t)
		require.Equal(t, command.Done, s.run("", append(words, "--help")...))
		found[strings.Join(append([]string{"duskhand"}, words...), " ")] = s.out
		_, list, _ := strings.Cut(s.out, "Available Commands:\n")
		list, _, _ = strings.Cut(list, "\n\n")
		for _, match := range commandLine.FindAllStringSubmatch(list, -1) {
			if match[1] != "help" {
				visit(append(append([]string{}, words...), match[1]))
			}
		}
	}
	visit(nil)
	return found
}

func TestTheManualHasEveryCommandAndEveryFlag(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "man"))
	page := s.out
	all := helps(t)
	require.Greater(t, len(all), 15)
	flag := regexp.MustCompile(`(?m)^ +(?:-\w, )?--([a-z-]+)`)
	for line, help := range all {
		if line != "duskhand" {
			assert.Contains(t, page, `.SS "`+strings.ReplaceAll(line, "-", `\-`), line)
		}
		own, _, _ := strings.Cut(help, "Global Flags:")
		_, own, _ = strings.Cut(own, "\nFlags:\n")
		for _, match := range flag.FindAllStringSubmatch(own, -1) {
			if match[1] == "help" && line != "duskhand" { // told once, above all commands
				continue
			}
			assert.Contains(t, partOf(page, line), `\-\-`+strings.ReplaceAll(match[1], "-", `\-`), "--%s of %s", match[1], line)
		}
	}
}

// partOf returns what the page says of one command.
func partOf(page, line string) string {
	if line == "duskhand" {
		page, _, _ = strings.Cut(page, ".SH \"COMMANDS\"")
		return page
	}
	_, part, _ := strings.Cut(page, `.SS "`+line)
	part, _, _ = strings.Cut(part, ".SS ")
	return part
}

// What roff would take for its own is escaped: every request is one of man(7)'s that we write, every escape one of
// groff_char(7)'s, and there is nothing but ASCII.
func TestTheManualIsSoundRoff(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "man"))
	require.Empty(t, s.err)
	request := regexp.MustCompile(`^\.(TH|SH|SS|TP|PP|RS|RE|nf|fi|br)( |$)`)
	escape := regexp.MustCompile(`\\(?:-|&|f[BIR]|\((?:rs|aq|ga|ha|ti|dq)|\[u[0-9A-F]{4,5}\])`)
	filled := 0
	for i, line := range strings.Split(s.out, "\n") {
		if strings.HasPrefix(line, ".") || strings.HasPrefix(line, "'") {
			require.Regexp(t, request, line, "line %d", i+1)
		}
		require.NotContains(t, escape.ReplaceAllString(line, ""), `\`, "line %d: %s", i+1, line)
		for _, r := range line {
			require.Less(t, r, rune(128), "line %d: %s", i+1, line)
		}
		switch line {
		case ".nf":
			filled++
		case ".fi":
			filled--
		}
	}
	assert.Zero(t, filled, "every .nf has its .fi")
	if _, err := exec.LookPath("groff"); err == nil { // where groff is, it agrees without a warning
		render := exec.Command("groff", "-man", "-Tutf8", "-ww")
		render.Stdin = strings.NewReader(s.out)
		var warnings strings.Builder
		render.Stderr = &warnings
		shown, err := render.Output()
		require.NoError(t, err)
		assert.Empty(t, warnings.String())
		assert.Contains(t, string(shown), "duskhand glance")
	}
}

func TestTheManualSaysWhatTheHelpSays(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "man"))
	for _, words := range []string{`.TH "DUSKHAND" "1"`, `duskhand \- a companion for the night`, "\n2  wrong use: an unknown command or flag",
		"\nduskhand room 300 && shoot"} {
		assert.Contains(t, s.out, words)
	}
}
