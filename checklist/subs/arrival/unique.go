package arrival

import (
	"cmp"
	"slices"
)

// unique returns the frames without those that were renamed or written again since, in the order of their
// files' times. It does not depend on the order of the frames given.
func unique(frames []Frame) []Frame {
	renamed := map[File]bool{} // under the path that they had before
	latest := map[string]Frame{}
	for _, f := range frames {
		if f.Was != "" {
			renamed[File{f.Was, f.Size, f.Changed}] = true
		}
	}
	for _, f := range frames {
		if other, twice := latest[f.Path]; !twice || later(f, other) > 0 {
			latest[f.Path] = f
		}
	}
	kept := make([]Frame, 0, len(latest))
	for _, f := range latest {
		if !renamed[f.File] { // not before: what it was written over must not come back
			kept = append(kept, f)
		}
	}
	slices.SortFunc(kept, func(a, b Frame) int {
		return cmp.Or(a.Changed.Compare(b.Changed), cmp.Compare(a.Path, b.Path))
	})
	return kept
}

// later compares two states of one path.
func later(a, b Frame) int {
	return cmp.Or(a.Seen.Compare(b.Seen), a.Changed.Compare(b.Changed), cmp.Compare(a.Size, b.Size))
}
