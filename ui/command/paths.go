package command

import "path/filepath"

// Where files are kept, by the XDG Base Directory Specification 0.8. It is followed here and not by a
// library because a library reads the environment of the process, and this program's is handed in.

const folder = "duskhand"

// kitPaths returns where a kit file is looked for, the person's own folder first.
func (p Program) kitPaths() []string {
	var paths []string
	if own := p.baseFolder("XDG_CONFIG_HOME", ".config"); own != "" {
		paths = append(paths, filepath.Join(own, folder, "kit.toml"))
	}
	shared := p.Env("XDG_CONFIG_DIRS")
	if shared == "" {
		shared = "/etc/xdg"
	}
	for _, each := range filepath.SplitList(shared) {
		if filepath.IsAbs(each) {
			paths = append(paths, filepath.Join(each, folder, "kit.toml"))
		}
	}
	return paths
}

// newKitPath returns where a new kit file belongs, "" when there is no home.
func (p Program) newKitPath() string {
	if own := p.baseFolder("XDG_CONFIG_HOME", ".config"); own != "" {
		return filepath.Join(own, folder, "kit.toml")
	}
	return ""
}

// journalPath returns where the journal is kept, "" when there is no home.
func (p Program) journalPath() string { return p.stateFile("journal.db") }

// typedPath returns where the form of a new kit keeps what is typed, "" when there is no home.
func (p Program) typedPath() string { return p.stateFile("new-kit.json") }

// pagesFolder returns where the screens save pages, "" when there is no home.
func (p Program) pagesFolder() string { return p.stateFile("pages") }

// replaysFolder returns where the screens keep a replay that is to be kept, "" when there is no home.
func (p Program) replaysFolder() string { return p.stateFile("replays") }

// stateFile returns the path of a file or folder that the program keeps for itself, "" when there is no home.
func (p Program) stateFile(name string) string {
	if own := p.baseFolder("XDG_STATE_HOME", filepath.Join(".local", "state")); own != "" {
		return filepath.Join(own, folder, name)
	}
	return ""
}

// baseFolder returns the folder that a variable names, or the one in the home. A path that is not
// absolute is passed over, as the specification asks.
func (p Program) baseFolder(variable, inHome string) string {
	if path := p.Env(variable); filepath.IsAbs(path) {
		return path
	}
	for _, home := range []string{p.Env("HOME"), p.Env("USERPROFILE")} {
		if filepath.IsAbs(home) {
			return filepath.Join(home, inHome)
		}
	}
	return ""
}
