package choose

import (
	"slices"
	"strings"
	"time"

	"duskhand/plan/kit"
)

// Filter is what a ranking leaves out. A zero value of each leaves nothing out.
type Filter struct {
	Types          []string      // any of catalog.Types; targets with coordinates of their own have no type
	Constellations []string      // any of the IAU's abbreviations, "Ori"
	Fits           []Fit         // any of them
	OneRun         bool          // only what the derotator lasts through
	AtLeast        time.Duration // that a target must be up
	NamePart       string        // of any name, case and spaces aside
}

// wants judges what is known without following the target.
func (f Filter) wants(t kit.Target) bool {
	anyOf := func(list []string, value string) bool {
		return len(list) == 0 || slices.ContainsFunc(list, func(s string) bool { return strings.EqualFold(s, value) })
	}
	if !anyOf(f.Types, t.Object.Type) || !anyOf(f.Constellations, t.Object.Constellation) {
		return false
	}
	part := fold(f.NamePart)
	return part == "" || slices.ContainsFunc(append([]string{t.Name}, t.Object.Names...), func(name string) bool {
		return strings.Contains(fold(name), part)
	})
}

// keeps judges the rest.
func (f Filter) keeps(c Choice) bool {
	return (len(f.Fits) == 0 || slices.Contains(f.Fits, c.Size.Fit)) && (!f.OneRun || c.OneRun) && c.Up >= f.AtLeast
}
