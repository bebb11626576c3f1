package hook_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/ui/hook"
)

// plays makes this test binary a program that an operator could have bound: "env FILE" writes its variables
// to a file, "fail" complains and fails, "stand" never ends, "flood" prints for ever, "leave" goes and
// leaves a child that keeps its output open.
const plays = "DUSKHAND_TEST_PLAYS"

func TestMain(m *testing.M) {
	if os.Getenv(plays) == "" {
		os.Exit(m.Run())
	}
	switch os.Args[1] {
	case "env":
		var ours []string
		for _, v := range os.Environ() {
			if strings.HasPrefix(v, "DUSKHAND_") && !strings.HasPrefix(v, plays) {
				ours = append(ours, v)
			}
		}
		if os.WriteFile(os.Args[2], []byte(strings.Join(ours, "\n")), 0o600) != nil {
			os.Exit(3)
		}
	case "all":
		if os.WriteFile(os.Args[2], []byte(strings.Join(os.Environ(), "\n")), 0o600) != nil {
			os.Exit(3)
		}
	case "files": // without opening one: the runtime's own poller would show
		var open []string
		for fd := range 64 {
			if to, err := os.Readlink(fmt.Sprintf("/proc/self/fd/%d", fd)); err == nil {
				open = append(open, to)
			}
		}
		if os.WriteFile(os.Args[2], []byte(strings.Join(open, "\n")), 0o600) != nil {
			os.Exit(3)
		}
	case "fail":
		fmt.Fprint(os.Stderr, "first\nno \x1b[31mlamp\x07 there\n\n")
		os.Exit(7)
	case "flood":
		for {
			fmt.Println(strings.Repeat("x", 5000))
		}
	case "stand":
		time.Sleep(time.Hour)
	}
}

func bound(t *testing.T, commands ...[]string) kit.Kit {
	t.Setenv(plays, "yes")
	k := kit.Kit{}
	for _, words := range commands {
		k.On = append(k.On, kit.OnEvent{Event: kit.RewindDue, Command: words})
	}
	return k
}

func happening() hook.Happening {
	angle, at := 15.25*sky.Degree, time.Date(2026, 12, 5, 13, 0, 0, 123, time.UTC)
	return hook.Happening{Event: kit.RewindDue, At: at, Night: "2026-12-05", Target: "NGC 2070", Run: 2, Angle: &angle, RewindBy: at.Add(-90 * time.Second)}
}

func TestProgramsAreToldWhatHappened(t *testing.T) {
	file := filepath.Join(t.TempDir(), "with a blank; and $HOME")
	require.Empty(t, hook.Run(context.Background(), bound(t, []string{os.Args[0], "env", file}), happening()))
	written, err := os.ReadFile(file)
	require.NoError(t, err, "no shell came between")
	assert.Equal(t, []string{
		"DUSKHAND_EVENT=rewind-due", "DUSKHAND_UTC=2026-12-05T13:00:00Z", "DUSKHAND_NIGHT=2026-12-05", "DUSKHAND_TARGET=NGC 2070",
		"DUSKHAND_RUN=2", "DUSKHAND_ANGLE_DEG=15.2", "DUSKHAND_REWIND_BY_UTC=2026-12-05T12:58:30Z", "DUSKHAND_SECONDS_LEFT=-90",
	}, strings.Split(string(written), "\n"))
	require.Empty(t, hook.Run(context.Background(), bound(t, []string{os.Args[0], "env", file}), hook.Happening{Event: kit.RewindDue}))
	written, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(written), "DUSKHAND_ANGLE_DEG=\n", "what is not known is empty")
}

func TestOtherEventsRunNothing(t *testing.T) {
	assert.Empty(t, hook.Run(context.Background(), bound(t, []string{"/does/not/exist"}), hook.Happening{Event: kit.TargetDone}))
}

func TestFailuresAreReturnedInWords(t *testing.T) {
	good := filepath.Join(t.TempDir(), "good")
	failed := hook.Run(context.Background(), bound(t,
		[]string{filepath.Join(t.TempDir(), "missing")}, []string{os.Args[0], "env", good}, []string{os.Args[0], "fail"}), happening())
	require.Len(t, failed, 2)
	assert.Equal(t, kit.RewindDue, failed[0].Event)
	assert.Contains(t, failed[0].Problem, "missing")
	assert.Equal(t, []string{os.Args[0], "fail"}, failed[1].Command)
	assert.Equal(t, "exit status 7: no [31mlamp there", failed[1].Problem, "its last line, nothing that moves a cursor")
	assert.FileExists(t, good, "the others run all the same")
}

func TestAProgramThatDoesNotEndIsEnded(t *testing.T) {
	limit := 200 * time.Millisecond
	for _, play := range []string{"stand", "flood"} {
		failed := hook.RunFor(context.Background(), limit, bound(t, []string{os.Args[0], play}), happening())
		require.Len(t, failed, 1, play)
		assert.Equal(t, "it was ended after 200ms", failed[0].Problem)
	}
}

func TestEveryVariableIsExplained(t *testing.T) {
	for _, v := range hook.Variables() {
		assert.True(t, strings.HasPrefix(v.Name, "DUSKHAND_"), v.Name)
		assert.NotEmpty(t, v.Meaning, v.Name)
	}
}

// Programs get the way to programs and files, the language, and what is ours; nothing else that was set.
func TestProgramsGetLittleOfOurEnvironment(t *testing.T) {
	for name, value := range map[string]string{"XDG_RUNTIME_DIR": "/run/user/1", "LANG": "C", "DUSKHAND_KIT": "a.toml", "A_SERVICE_TOKEN": "secret", "LD_PRELOAD": ""} {
		t.Setenv(name, value)
	}
	file := filepath.Join(t.TempDir(), "environment")
	require.Empty(t, hook.Run(context.Background(), bound(t, []string{os.Args[0], "all", file}), happening()))
	written, err := os.ReadFile(file)
	require.NoError(t, err)
	for _, there := range []string{"XDG_RUNTIME_DIR=/run/user/1", "LANG=C", "DUSKHAND_KIT=a.toml", "DUSKHAND_EVENT=rewind-due", "PATH="} {
		assert.Contains(t, string(written), there)
	}
	assert.NotContains(t, string(written), "A_SERVICE_TOKEN")
	assert.NotContains(t, string(written), "LD_PRELOAD")
}
