package watch

import (
	"path/filepath"
	"slices"
	"strings"
)

// class is what a file's name says of it.
type class struct {
	frame  bool
	unread string // why such a frame is not read; "" if it is
}

const asRaw = "is not a FITS file, so it is counted by its time and could not be measured"

// raw are the endings of frames that are known but not read: camera makers' own files, and other pictures.
func raw() []string {
	return []string{".arw", ".cr2", ".cr3", ".dng", ".nef", ".orf", ".pef", ".raf", ".rw2", ".tif", ".tiff", ".xisf"}
}

// classOf tells frames from other files by name, in any case. Hidden and temporary names are no frames: they
// become some when they are renamed.
func classOf(path string) class {
	name := strings.ToLower(filepath.Base(path))
	if hidden(name) || strings.Contains(name, ".tmp.") || strings.Contains(name, ".part.") {
		return class{}
	}
	ending := filepath.Ext(name)
	switch {
	case isFITS(ending), ending == ".gz" && isFITS(filepath.Ext(strings.TrimSuffix(name, ending))):
		return class{frame: true}
	case slices.Contains(raw(), ending):
		return class{frame: true, unread: asRaw}
	}
	return class{}
}

// isFITS knows the endings of FITS files; .fz is that of frames compressed in tiles.
func isFITS(ending string) bool {
	return ending == ".fits" || ending == ".fit" || ending == ".fts" || ending == ".fz"
}

// IsFITS tells frames that can be read from other files, by name.
func IsFITS(path string) bool {
	c := classOf(path)
	return c.frame && c.unread == ""
}

// hidden tells names that programs and systems keep for themselves.
func hidden(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~") || strings.HasPrefix(name, "#") || strings.HasPrefix(name, "$")
}

// Skipped tells folders that systems keep for themselves; some of them nobody may read.
func Skipped(name string) bool {
	switch strings.ToLower(name) {
	case "lost+found", "system volume information", "$recycle.bin", "@eadir", "#recycle":
		return true
	}
	return hidden(name)
}
