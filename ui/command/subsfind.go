package command

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"duskhand/checklist/subs"
	fitsfile "duskhand/checklist/subs/fits" // room has a name like the package
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/watch"
)

// folderFrame is one frame of a folder, or what could not be read there.
type folderFrame struct {
	path     string
	header   subs.Header
	start    time.Time
	dated    bool // start comes from the header, not from the file's time
	unread   string
	remarks  []string
	measured *subs.Measured // without its stars; nil if it is no light
	place    *survey.Place  // nil if it is no light that was measured
}

// light tells whether the frame is worth measuring.
func (f *folderFrame) light() bool {
	return f.unread == "" && (f.header.Kind == subs.Light || f.header.Kind == subs.UnknownKind)
}

// findFrames reads the headers of all frames in folders, in the order of their exposures; what can't be read
// comes last.
func findFrames(ctx context.Context, folders []string) ([]*folderFrame, error) {
	var frames []*folderFrame
	seen := map[string]bool{}
	for _, folder := range folders {
		found, err := framesIn(folder)
		if err != nil {
			return nil, err
		}
		for _, f := range found {
			if !seen[f.path] {
				seen[f.path] = true
				frames = append(frames, f)
			}
		}
	}
	for _, f := range frames {
		if ctx.Err() != nil {
			return nil, fmt.Errorf("stopped while the headers were read; nothing is measured")
		}
		if f.unread == "" {
			f.readHeader()
		}
	}
	if len(frames) == 0 {
		return nil, fmt.Errorf("there is no frame in %s; frames are FITS files: .fits, .fit or .fts, also with .gz", strings.Join(folders, ", "))
	}
	slices.SortStableFunc(frames, func(a, b *folderFrame) int {
		return cmp.Or(compareBool(a.unread != "", b.unread != ""), a.start.Compare(b.start), cmp.Compare(a.path, b.path))
	})
	return frames, nil
}

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// framesIn returns the frames in a folder and all in it. A folder in it that can't be looked at is returned as
// one that could not be read.
func framesIn(folder string) (frames []*folderFrame, err error) {
	info, err := os.Stat(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no folder %s; give the one that the frames are in", folder)
	}
	if err != nil {
		return nil, fmt.Errorf("looking at %s: %w", folder, err)
	}
	if !info.IsDir() {
		return []*folderFrame{{path: filepath.Clean(folder)}}, nil
	}
	root := filepath.Clean(folder) + string(filepath.Separator) // so that a link to a folder is followed
	err = filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		path = filepath.Clean(path)
		switch {
		case err != nil && path == filepath.Clean(folder):
			return fmt.Errorf("looking through %s: %w", folder, err)
		case err != nil:
			frames = append(frames, &folderFrame{path: path, unread: err.Error()})
			return fs.SkipDir
		case path == filepath.Clean(folder):
			return nil
		case entry.IsDir() && watch.Skipped(entry.Name()):
			return fs.SkipDir
		case !entry.IsDir() && watch.IsFITS(path):
			frames = append(frames, &folderFrame{path: path})
		}
		return nil
	})
	return frames, err
}

// readHeader fills in what the header says. A frame without a date has that of its file, less the exposure.
func (f *folderFrame) readHeader() {
	frame, err := fitsfile.Open(f.path)
	if err == nil {
		f.header, f.remarks = frame.Header, frame.Remarks
		err = frame.Close()
	}
	if err != nil {
		f.unread = err.Error()
		return
	}
	if f.header.Start != nil {
		f.start, f.dated = *f.header.Start, true
		return
	}
	info, err := os.Stat(f.path)
	if err != nil {
		f.unread = err.Error()
		return
	}
	f.start = info.ModTime()
	if f.header.Exposure != nil {
		f.start = f.start.Add(-*f.header.Exposure)
	}
	f.remarks = append(f.remarks, "no DATE-OBS: placed by the file's time, and not compared")
}
