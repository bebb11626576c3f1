package ui_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/keys"
)

// sources returns every Go file of the module below the folder above this package, by its path there.
func sources(t *testing.T, tests bool) map[string]string {
	t.Helper()
	files := map[string]string{}
	require.NoError(t, filepath.WalkDir("..", func(path string, entry fs.DirEntry, err error) error {
		if entry != nil && entry.IsDir() && entry.Name() == "testdata" {
			return fs.SkipDir // programs there make tables and belong to nothing
		}
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") && !tests {
			return err
		}
		text, err := os.ReadFile(path)
		files[strings.TrimPrefix(filepath.ToSlash(path), "../")] = string(text)
		return err
	}))
	require.Greater(t, len(files), 100)
	return files
}

// allowed says which of our top folders each may import: main → ui → checklist, plan → sky.
func allowed() map[string][]string {
	return map[string][]string{
		"sky":       {"sky"},
		"plan":      {"plan", "sky"},
		"checklist": {"checklist", "plan", "sky"},
		"ui":        {"ui", "checklist", "plan", "sky"},
		"main.go":   {"ui"},
	}
}

func TestImportsRunOneWay(t *testing.T) {
	for path, text := range sources(t, false) {
		parsed, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ImportsOnly)
		require.NoError(t, err)
		top, _, _ := strings.Cut(path, "/")
		for _, spec := range parsed.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			if inner, ours := strings.CutPrefix(name, "duskhand/"); ours {
				folder, _, _ := strings.Cut(inner, "/")
				assert.Contains(t, allowed()[top], folder, "%s imports %s", path, name)
			}
			if strings.HasPrefix(name, "github.com/charmbracelet/") && top != "ui" {
				t.Errorf("%s imports %s: screens live under ui", path, name)
			}
			assert.NotEqual(t, "testing", name, "%s is part of the binary", path)
		}
	}
}

// A screen is a room: none knows another, and only the root knows all of them. plan/kit names no screen.
func TestScreensAreRooms(t *testing.T) {
	const rooms = "duskhand/ui/screens/"
	known := map[string]map[string]bool{} // the rooms that each folder imports
	all := map[string]bool{}
	for path, text := range sources(t, false) {
		folder := "duskhand/" + filepath.ToSlash(filepath.Dir(path))
		if strings.HasPrefix(folder, rooms) {
			all[folder] = true
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ImportsOnly)
		require.NoError(t, err)
		for _, spec := range parsed.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			if !strings.HasPrefix(name, rooms) {
				continue
			}
			assert.False(t, strings.HasPrefix(folder, rooms), "%s imports the room %s", path, name)
			assert.NotEqual(t, "duskhand/ui/screens", folder, "%s imports the room %s", path, name)
			if known[folder] == nil {
				known[folder] = map[string]bool{}
			}
			known[folder][name] = true
		}
	}
	require.Len(t, all, int(keys.ScreenCount))
	assert.Equal(t, all, known["duskhand/ui"], "the root knows every room")
	for folder, some := range known {
		assert.True(t, folder == "duskhand/ui" || len(some) == 1, "%s knows several rooms", folder)
	}
	for path, text := range sources(t, false) {
		if strings.HasPrefix(path, "plan/kit/") {
			assert.NotRegexp(t, "\"(two stars|focus star|decide|alarms|steps)\"", text, path)
		}
	}
}

// One place each for the machine's clock and for styles.
func TestOnePlaceForClockAndStyles(t *testing.T) {
	for what, rule := range map[string]struct {
		pattern *regexp.Regexp
		home    string
	}{
		"the machine's clock": {regexp.MustCompile(`\btime\.(Now|Since|Until)\b|\btea\.Every\b`), "ui/clock/"},
		"a style or colour":   {regexp.MustCompile(`\blipgloss\.(NewStyle|Color|AdaptiveColor|CompleteColor)\b|\.NewStyle\(`), "ui/theme/"},
		"a key by its name":   {regexp.MustCompile(`msg\.String\(\)`), "nowhere/"},
		"a line being typed":  {regexp.MustCompile(`\btextinput\.New\b|input\.Update\(`), "ui/oneline/"},
	} {
		for path, text := range sources(t, false) {
			if !strings.HasPrefix(path, rule.home) {
				assert.False(t, rule.pattern.MatchString(text), "%s uses %s; that lives in %s", path, what, rule.home)
			}
		}
	}
}

// Package names say what a package is about.
// What is found is told by kinds and numbers; only package say and the printers make sentences of them.
func TestWhatIsFoundIsNoSentence(t *testing.T) {
	silent := map[string]int{"ui/facts": 0, "checklist/advice": 0, "checklist/subs/arrival": 0, "checklist/subs/survey": 0, "checklist/subs/turning": 0, "checklist/frames/stage": 0,
		"checklist/frames/drift": 0, "checklist/tally": 0, "plan/choose": 0, "plan/exposure": 0, "plan/framing": 0, "plan/guiding": 0, "plan/share": 0}
	for path, text := range sources(t, false) {
		folder := filepath.ToSlash(filepath.Dir(path))
		if _, ok := silent[folder]; !ok {
			continue
		}
		silent[folder]++
		parsed, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ImportsOnly)
		require.NoError(t, err)
		for _, spec := range parsed.Imports {
			assert.NotEqual(t, `"duskhand/sky/words"`, spec.Path.Value, "%s prints", path)
		}
		if folder == "ui/facts" || folder == "plan/choose" || folder == "plan/share" {
			assert.NotContains(t, text, "fmt.Sprint", "%s makes text", path)
		}
	}
	for folder, files := range silent {
		assert.NotZero(t, files, "%s is no folder", folder)
	}
}

func TestNoCatchAllPackages(t *testing.T) {
	for path, text := range sources(t, true) {
		parsed, err := parser.ParseFile(token.NewFileSet(), path, text, parser.PackageClauseOnly)
		require.NoError(t, err)
		assert.NotContains(t, []string{"util", "utils", "helpers", "types", "common", "models", "misc"}, parsed.Name.Name, path)
	}
}

// What only tests use is no part of the product: it lives in _test.go files or below a testdata folder, which
// ./... leaves out. Dead functions are found by a step of .ci/run.
func TestNoPackageIsForTestsAlone(t *testing.T) {
	imports, reached := map[string]map[string]bool{}, []string{}
	for path, text := range sources(t, false) {
		parsed, err := parser.ParseFile(token.NewFileSet(), path, text, parser.ImportsOnly)
		require.NoError(t, err)
		folder := filepath.ToSlash(filepath.Dir(path))
		if imports[folder] == nil {
			imports[folder] = map[string]bool{}
			if parsed.Name.Name == "main" {
				reached = append(reached, folder)
			}
		}
		for _, spec := range parsed.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			require.NoError(t, err)
			if inner, ours := strings.CutPrefix(name, "duskhand/"); ours {
				imports[folder][inner] = true
				assert.NotContains(t, inner, "testdata", "%s is part of the binary", path)
			}
		}
	}
	require.Contains(t, reached, ".")
	seen := map[string]bool{}
	for len(reached) > 0 {
		folder := reached[0]
		reached = reached[1:]
		if seen[folder] {
			continue
		}
		seen[folder] = true
		for inner := range imports[folder] {
			reached = append(reached, inner)
		}
	}
	for folder := range imports {
		assert.True(t, seen[folder], "no program imports %s", folder)
	}
}

// The root routes and shows; what a screen or a form keeps, and what is said, has its own place.
func TestTheRootStaysSmall(t *testing.T) {
	const most = 1000
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	lines := 0
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		lines += strings.Count(string(text), "\n")
	}
	assert.Less(t, lines, most)
}
