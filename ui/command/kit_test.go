package command_test

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui/command"
	"duskhand/ui/keys"
)

// allSet answers every question by its own example.
func allSet() []string {
	var set []string
	for _, q := range kit.Questions() {
		example := q.Example
		switch q.Key {
		case "target.name":
			example = "NGC 2070"
		}
		set = append(set, "--set", q.Key+"="+example)
	}
	return set
}

func TestKitNewThenCheckThenPlan(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", append([]string{"kit", "new"}, allSet()...)...), s.err)
	path := filepath.Join(s.home, ".config", "duskhand", "kit.toml")
	assert.Contains(t, s.out, "Wrote "+path)
	assert.Contains(t, s.out, "duskhand plan\n")
	info, err := os.Stat(path)
	require.NoError(t, err)
	if runtime.GOOS != "windows" {
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "it says where a telescope stands")
	}
	beside, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, beside, 1, "no temporary file is left")

	require.Equal(t, command.Done, s.run("", "kit", "check"), s.err)
	assert.Contains(t, s.out, path+" is in order")
	assert.Contains(t, s.out, "targets: NGC 2070")
	assert.Empty(t, s.err)

	n := s.night()
	assert.False(t, n.Example)
	assert.Equal(t, "2026-11-24", n.Date)
}

func TestKitNewFollowsTheConfigFolder(t *testing.T) {
	s := newShell(t)
	s.env["XDG_CONFIG_HOME"] = filepath.Join(s.home, "elsewhere")
	require.Equal(t, command.Done, s.run("", append([]string{"kit", "new"}, allSet()...)...), s.err)
	assert.FileExists(t, filepath.Join(s.home, "elsewhere", "duskhand", "kit.toml"))
	s.env["XDG_CONFIG_HOME"] = "not/absolute" // to be passed over, by the specification
	assert.Equal(t, command.Failed, s.run("", "kit", "check"))
	assert.Contains(t, s.err, filepath.Join(s.home, ".config", "duskhand", "kit.toml"))
}

func TestKitIsFoundInSharedFolders(t *testing.T) {
	s := newShell(t)
	path := s.write("shared/duskhand/kit.toml", string(kit.ExampleTOML()))
	require.Equal(t, command.Done, s.run("", "kit", "check"), s.err)
	assert.Contains(t, s.out, path)
	own := s.ownKit()
	require.Equal(t, command.Done, s.run("", "kit", "check"), s.err)
	assert.Contains(t, s.out, own, "the person's own comes first")
}

func TestKitNewDoesNotWriteOver(t *testing.T) {
	s := newShell(t)
	path := s.write("garden.toml", "mine")
	for _, args := range [][]string{{path}, {"--kit", path}} {
		assert.Equal(t, command.Failed, s.run("", append([]string{"kit", "new"}, args...)...))
		assert.Contains(t, s.err, "was left alone")
		kept, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, "mine", string(kept))
	}
	require.Equal(t, command.Done, s.run("", append([]string{"kit", "new", path, "--force"}, allSet()...)...), s.err)
	require.Equal(t, command.Done, s.run("", "kit", "check", path), s.err)
	assert.Contains(t, s.out, "is in order")
}

func TestKitNewForceWritesBehindALink(t *testing.T) {
	s := newShell(t)
	real, link := s.write("dots/kit.toml", "old"), filepath.Join(s.home, "kit.toml")
	require.NoError(t, os.Symlink(real, link))
	assert.Equal(t, command.Failed, s.run("", "kit", "new", link))
	require.Equal(t, command.Done, s.run("", "kit", "new", link, "--force"), s.err)
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink)
	written, err := os.ReadFile(real)
	require.NoError(t, err)
	assert.Contains(t, string(written), "[derotator]")
}

func TestKitNewWithoutAnswersLeavesThemToTheEditor(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "kit", "new", "--set", "site.latitude=-31.95"), s.err)
	assert.Contains(t, s.out, "Keys still to be filled in: ")
	assert.Contains(t, s.out, "site.longitude")
	assert.Equal(t, command.Failed, s.run("", "kit", "check"))
	assert.Contains(t, s.err, "site.longitude is missing")
	assert.NotContains(t, s.err, "site.latitude")
	assert.Empty(t, s.out)
}

func TestKitNewRefuses(t *testing.T) {
	tests := []struct {
		name string
		args []string
		want string
	}{
		{"a key that is none", []string{"--set", "site.latitud=3"}, "did you mean site.latitude?"},
		{"a value out of range", []string{"--set", "site.latitude=100"}, "site.latitude"},
		{"the upper limit below the lower", []string{"--set", "derotator.min_deg=16", "--set", "derotator.max_deg=-16"}, "give the smaller limit first"},
		{"filters without numbers", []string{"--set", "subs.filters=L"}, "write it as L 60 s × 120"},
		{"several filters as one", []string{"--set", "subs.filter.name=L,R,G,B"}, "looks like several filters"},
		{"no value", []string{"--set", "site.latitude"}, "give key and value"},
		{"a key given twice", []string{"--set", "site.latitude=1", "--set", "site.latitude=2"}, "twice"},
		{"two paths", []string{"a.toml", "--kit", "b.toml"}, "two paths"},
		{"three paths", []string{"a.toml", "b.toml", "c.toml"}, "one path"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			s := newShell(t)
			assert.Equal(t, command.WrongUse, s.run("", append([]string{"kit", "new"}, test.args...)...))
			assert.Contains(t, s.err, test.want)
			assert.Empty(t, s.out)
			assert.NoFileExists(t, filepath.Join(s.home, ".config", "duskhand", "kit.toml"))
		})
	}
}

func TestKitNewWithoutAHome(t *testing.T) {
	s := newShell(t)
	s.env = map[string]string{}
	assert.Equal(t, command.WrongUse, s.run("", "kit", "new"))
	assert.Contains(t, s.err, "give a path")
}

func TestKitNewAsksInATerminal(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	var typed strings.Builder
	for _, q := range kit.AskedOfANewKit() {
		switch q.Key {
		case kit.PlaceKey:
			typed.WriteString("north\n95, 20\n−31,95 141,50\n") // two answers that won't do
		case "target.name":
			typed.WriteString("Tarantulla\nTarantula Nebula\n")
		default:
			typed.WriteString(q.Example + "\n")
		}
	}
	require.Equal(t, command.Done, s.run(typed.String(), "kit", "new"), s.err)
	for _, q := range kit.AskedOfANewKit() {
		assert.Contains(t, s.err, q.Prompt)
		assert.Contains(t, s.err, q.Range)
	}
	assert.Contains(t, s.err, "did you mean Tarantula")
	s.terminal = false
	require.Equal(t, command.Done, s.run("", "kit", "check"), s.err)
	assert.Contains(t, s.out, "Tarantula Nebula")
	assert.Contains(t, s.out, "σ Octantis stands 32° high, and noon is at 13:04 by your clock")
	data, err := os.ReadFile(filepath.Join(s.home, ".config", "duskhand", "kit.toml"))
	require.NoError(t, err)
	assert.Equal(t, 4, strings.Count(string(data), "\n[[subs.filter]]\n"), "as the example of the question has them")
}

func TestKitNewAsksAgainForWhatDoesNotGoTogether(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	var typed strings.Builder
	for _, q := range kit.AskedOfANewKit() {
		answer := map[string]string{"derotator.min_deg": "170", "derotator.max_deg": "-170", "target.name": "NGC 2070"}[q.Key]
		if answer == "" {
			answer = q.Example
		}
		typed.WriteString(answer + "\n")
	}
	// Which of the two is asked for again is the kit's choice; both answers serve either.
	code := s.run(typed.String()+"171\n171\n", "kit", "new")
	assert.Contains(t, s.err, "These do not go together")
	require.Equal(t, command.Done, code, s.err)
}

func TestKitNewLeavesOpenWhatGetsAnEmptyLine(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	require.Equal(t, command.Done, s.run(strings.Repeat("\n", len(kit.AskedOfANewKit())), "kit", "new"), s.err)
	assert.Contains(t, s.out, "Keys still to be filled in: site.latitude, site.longitude, site.name, site.zone, ")
}

func TestKitNewWritesNothingWhenThePersonLeaves(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	assert.Equal(t, command.Failed, s.run("Saltbush Flat\n", "kit", "new"))
	assert.Contains(t, s.err, "nothing was written")
	assert.NoFileExists(t, filepath.Join(s.home, ".config", "duskhand", "kit.toml"))
}

func TestKitCheckPrintsEveryFault(t *testing.T) {
	s := newShell(t)
	path := s.ownKit("latitude = -31.95", "latitude = 95", "sense = 1", "sense = 2")
	assert.Equal(t, command.Failed, s.run("", "kit", "check"))
	assert.Empty(t, s.out)
	lines := strings.Split(strings.TrimSpace(s.err), "\n")
	require.Len(t, lines, 2)
	for _, line := range lines {
		assert.Regexp(t, `^`+path+`:\d+: `, line, "as editors and other tools read it")
	}
	for _, args := range [][]string{{"plan"}, {"plan", "--json"}} { // never the example instead
		assert.Equal(t, command.Failed, s.run("", args...))
		assert.Empty(t, s.out)
		assert.Contains(t, s.err, path)
	}
}

func TestKitReferenceNamesEveryQuestion(t *testing.T) {
	s := newShell(t)
	require.Equal(t, command.Done, s.run("", "kit", "reference"))
	assert.Equal(t, string(kit.Reference(keys.KitRows()...)), s.out)
}

func TestKitAloneSaysWhatItTakes(t *testing.T) {
	s := newShell(t)
	assert.Equal(t, command.WrongUse, s.run("", "kit"))
	assert.Contains(t, s.err, "check, new or reference")
	assert.Equal(t, command.WrongUse, s.run("", "kit", "chekc"))
	assert.Contains(t, s.err, "did you mean check?")
}
