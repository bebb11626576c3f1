package command_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist"
	"duskhand/ui/command"
)

// helps returns the help of every command, by its words.
func (s *shell) helps(words ...string) map[string]string {
	s.t.Helper()
	require.Equal(s.t, command.Done, s.run("", append(words, "--help")...), s.err)
	help := s.out
	all := map[string]string{strings.Join(words, " "): help}
	_, list, any := strings.Cut(help, "Available Commands:\n")
	if !any {
		return all
	}
	list, _, _ = strings.Cut(list, "\n\n")
	for _, line := range strings.Split(list, "\n") {
		if fields := strings.Fields(line); len(fields) > 1 && fields[0] != "help" {
			for name, text := range s.helps(append(words[:len(words):len(words)], fields[0])...) {
				all[name] = text
			}
		}
	}
	return all
}

// The checklist that the help shows as a sample is one that kit check takes.
func TestSampleOfOwnStepsIsTaken(t *testing.T) {
	s := newShell(t)
	sample := ""
	for _, line := range strings.Split(s.helps("steps")["steps"], "\n") {
		if line, indented := strings.CutPrefix(line, "  "); indented && (strings.HasPrefix(line, "[[") || regexp.MustCompile(`^[a-z_]+ = `).MatchString(line)) {
			sample += line + "\n"
		}
	}
	require.Contains(t, sample, "[[move]]")
	_, err := checklist.ReadOwn([]byte(sample), "steps.toml")
	assert.NoError(t, err, "%s", sample)
	kit := s.ownKit()
	s.write("steps.toml", sample)
	assert.Equal(t, command.Done, s.run("", "kit", "check", kit), s.err)
}

// What the help says in sentences is wrapped; only a field of a document, a flag or an example stands in a line of its
// own, indented, however long it is.
func TestSentencesOfTheHelpAreWrapped(t *testing.T) {
	const widest = 118 // of a window of 120 columns
	for name, help := range newShell(t).helps() {
		for _, line := range strings.Split(help, "\n") {
			if !strings.HasPrefix(line, "  ") {
				assert.LessOrEqual(t, len([]rune(line)), widest, "%s: %s", name, line)
			}
		}
	}
}

// exampleParts are a line's input, from an echo or nowhere, and its words after "duskhand".
var exampleParts = regexp.MustCompile(`^(?:echo '([^']*)' \| )?duskhand\b([^|<>&;]*)`)

// shellWord is a word as a shell takes it, quoted or not.
var shellWord = regexp.MustCompile(`"[^"]*"|'[^']*'|\S+`)

// Every command line that the help gives as an example is one that the program takes: with nothing there to work
// on it may fail, but not for how it was asked.
func TestExamplesOfTheHelpAreTaken(t *testing.T) {
	t.Chdir(t.TempDir()) // some examples write files
	tried := 0
	for name, help := range newShell(t).helps() {
		_, examples, any := strings.Cut(help, "Examples:\n")
		if !any {
			continue
		}
		examples, _, _ = strings.Cut(examples, "\n\n")
		for _, line := range strings.Split(examples, "\n") {
			line, _, _ = strings.Cut(strings.TrimSpace(line), "  ") // then comes what it does
			parts := exampleParts.FindStringSubmatch(line)
			if parts == nil {
				continue
			}
			var args []string
			for _, word := range shellWord.FindAllString(parts[2], -1) {
				args = append(args, strings.Trim(word, `"'`))
			}
			if len(args) > 0 && args[0] == "room" { // whose code is its answer
				continue
			}
			var code int
			var said string
			for _, own := range []bool{true, false} { // some are about the example's night
				s := newShell(t)
				s.terminal = name == ""
				if own {
					s.ownKit()
				}
				code, said = s.run(parts[1]+"\n", args...), s.err
				if code != command.WrongUse {
					break
				}
			}
			assert.NotEqual(t, command.WrongUse, code, "%s: %s\n%s", name, line, said)
			if parts[1] != "" {
				assert.Equal(t, command.Done, code, "%s: %s\n%s", name, line, said)
			}
			tried++
		}
	}
	assert.Greater(t, tried, 20)
}
