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
)

// answersByExample answers every question by its own example.
func answersByExample() map[string]string {
	answers := map[string]string{}
	for _, q := range kit.Questions() {
		answers[q.Key] = q.Example
	}
	answers["target.name"] = "NGC 2070"
	return answers
}

func TestTheExampleMakesAKitAndGoesOnWithIt(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	require.Equal(t, command.Done, s.run("", "--speed", "60", "--palette", "day", "--ascii"), s.err)
	first := s.shown[0]
	require.NotNil(t, first.NewKit)
	typed := map[string]string{"site.name": "Salt \"Flat\"", "site.place": "-31.95, 141.5"}
	none, err := first.NewKit.Typed()
	require.NoError(t, err)
	require.Empty(t, none)
	require.NoError(t, first.NewKit.Keep(typed))
	kept, err := first.NewKit.Typed()
	require.NoError(t, err)
	require.Equal(t, typed, kept)
	assert.Equal(t, s.now, first.NewKit.Now(), "the world's clock, not the example's")
	path, err := first.NewKit.Write(answersByExample())
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(s.home, ".config", "duskhand", "kit.toml"), path)
	kept, err = first.NewKit.Typed()
	require.NoError(t, err)
	require.Empty(t, kept, "it is in the kit now")
	info, err := os.Stat(path)
	require.NoError(t, err)
	if runtime.GOOS != "windows" {
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	}
	own, err := first.NewKit.Open(path)
	require.NoError(t, err)
	assert.False(t, own.Kit.Example)
	assert.False(t, own.Clock.Replaying(), "tonight, without flags")
	require.NotNil(t, own.NewKit.Old, "from now on it is changed")
	typed, besides, err := own.NewKit.Old()
	require.NoError(t, err)
	assert.Equal(t, "NGC 2070", typed["target.name"])
	assert.Empty(t, besides)
	assert.Equal(t, []any{first.Palette, first.Charset, path}, []any{own.Palette, own.Charset, own.KitPath})

	_, err = first.NewKit.Write(answersByExample())
	require.ErrorContains(t, err, path+" is there already and was left alone")
	require.Equal(t, command.Done, s.run(""), s.err)
	assert.False(t, s.shown[1].Kit.Example, "from now on it is found")
	own = s.shown[1]
	require.NoError(t, own.NewKit.Keep(map[string]string{"site.name": "Hill"}))
	kept, err = own.NewKit.Typed()
	require.NoError(t, err)
	assert.Equal(t, map[string]string{"site.name": "Hill"}, kept)
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	_, err = own.NewKit.Write(map[string]string{"site.name": "Hill", "derotator.max_deg": "-90"})
	require.ErrorContains(t, err, "give the smaller limit first")
	_, err = own.NewKit.Write(kept)
	require.NoError(t, err)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(string(before), `"Saltbush Flat"`, `"Hill"`, 1), string(after), "comments and all else stay")
	kept, err = own.NewKit.Typed()
	require.NoError(t, err)
	assert.Empty(t, kept)
}

func TestWhatWasTypedAndIsDamagedIsSetAside(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	require.Equal(t, command.Done, s.run(""), s.err)
	path := filepath.Join(s.home, ".local", "state", "duskhand", "new-kit.json")
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
	require.NoError(t, os.WriteFile(path, []byte(`{"site.name": "Sa`), 0o600))
	_, err := s.shown[0].NewKit.Typed()
	require.ErrorContains(t, err, "the file is at "+path+".unreadable now")
	data, err := os.ReadFile(path + ".unreadable")
	require.NoError(t, err)
	assert.Equal(t, `{"site.name": "Sa`, string(data))
	require.NoError(t, s.shown[0].NewKit.Keep(map[string]string{"site.name": "Salt"}))
}

func TestNoKitIsOfferedWithoutAHome(t *testing.T) {
	s := newShell(t)
	s.terminal, s.env = true, map[string]string{"TERM": "xterm", "LANG": "C.UTF-8", "XDG_CONFIG_DIRS": s.home}
	require.Equal(t, command.Done, s.run(""), s.err)
	assert.Nil(t, s.shown[0].NewKit)
}

func TestAnswersThatContradictEachOtherAreNotWritten(t *testing.T) {
	s := newShell(t)
	s.terminal = true
	require.Equal(t, command.Done, s.run(""), s.err)
	answers := answersByExample()
	answers["derotator.min_deg"] = "100"
	_, err := s.shown[0].NewKit.Write(answers)
	require.ErrorContains(t, err, "derotator.max_deg = 16 is below derotator.min_deg = 100")
	assert.NoFileExists(t, filepath.Join(s.home, ".config", "duskhand", "kit.toml"))
}

func TestTheComputersTimeZone(t *testing.T) {
	tests := []struct{ name, variable, link, file, want string }{
		{"by the variable", "Europe/Berlin", "", "", "Europe/Berlin"},
		{"by the variable with a colon", ":America/New_York", "", "", "America/New_York"},
		{"by the variable as a file", ":/usr/share/zoneinfo/Asia/Tokyo", "", "", "Asia/Tokyo"},
		{"a rule of POSIX names no place", "CET-1CEST", "", "", ""},
		{"by the link", "", "/usr/share/zoneinfo/Australia/Broken_Hill", "", "Australia/Broken_Hill"},
		{"by the file", "", "", "Pacific/Auckland\n", "Pacific/Auckland"},
		{"the link before the file", "", "../usr/share/zoneinfo/Asia/Tokyo", "Pacific/Auckland\n", "Asia/Tokyo"},
		{"UTC is nobody's place", "UTC", "/usr/share/zoneinfo/Etc/UTC", "Etc/UTC\n", ""},
		{"a zone that is none", "Mars/Olympus", "", "", ""},
		{"nothing", "", "", "", ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			etc := t.TempDir()
			if test.link != "" {
				require.NoError(t, os.Symlink(test.link, filepath.Join(etc, "localtime")))
			}
			if test.file != "" {
				require.NoError(t, os.WriteFile(filepath.Join(etc, "timezone"), []byte(test.file), 0o600))
			}
			assert.Equal(t, test.want, command.MachineZone(test.variable, etc))
		})
	}
}
