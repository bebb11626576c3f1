package hook

import (
	"context"
	"os"
	"os/exec"
	"runtime"
	"strings"
)

// Command returns a program of the operator's, ready to be run: with as much of our environment as Inherited says,
// and none of our open files.
func Command(ctx context.Context, words []string) *exec.Cmd {
	keepFilesToOurselves()
	command := exec.CommandContext(ctx, words[0], words[1:]...)
	command.Env = Inherited(os.Environ())
	return command
}

// Inherited returns those variables of an environment that programs of the operator's get too: where programs and
// the person's files are, the language, and our own. What else is set where this program was started, keys of
// services perhaps, is nobody's business.
func Inherited(environment []string) (passed []string) {
	for _, variable := range environment {
		name, _, _ := strings.Cut(variable, "=")
		if isPassed(name) {
			passed = append(passed, variable)
		}
	}
	return passed
}

func isPassed(name string) bool {
	switch name {
	case "PATH", "HOME", "LANG":
		return true
	}
	if strings.HasPrefix(name, "XDG_") || strings.HasPrefix(name, "LC_") || strings.HasPrefix(name, "DUSKHAND_") {
		return true
	}
	return runtime.GOOS == "windows" && isPassedOnWindows(strings.ToUpper(name))
}

// isPassedOnWindows adds what programs there don't start without, or don't find their person by.
func isPassedOnWindows(name string) bool {
	switch name {
	case "PATH", "PATHEXT", "COMSPEC", "SYSTEMROOT", "SYSTEMDRIVE", "WINDIR", "TEMP", "TMP", "USERPROFILE", "HOMEDRIVE", "HOMEPATH", "APPDATA",
		"LOCALAPPDATA", "PROGRAMDATA", "PROGRAMFILES":
		return true
	}
	return false
}
