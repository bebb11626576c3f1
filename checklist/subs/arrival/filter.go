package arrival

import (
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"duskhand/plan/kit"
)

// sameFilters are the ways in which people write the usual filters, without spaces and hyphens.
func sameFilters() [][]string {
	return [][]string{
		{"l", "lum", "lumi", "luminance", "clear", "c"}, {"r", "red"}, {"g", "green"}, {"b", "blue"},
		{"ha", "halpha", "hα"}, {"oiii", "o3"}, {"sii", "s2"}, {"hb", "hbeta", "hβ"}, {"nii", "n2"},
	}
}

// FilterOf returns which of the kit's filters a header means, −1 for none: the one of that name, in any case, the
// one that the kit says is also written so, or the only one that the name is another way of writing.
func FilterOf(wanted kit.Subs, name string) int {
	written := bare(name)
	if written == "" {
		return -1
	}
	if i := slices.IndexFunc(wanted.Filters, func(f kit.Filter) bool { return bare(f.Name) == written }); i >= 0 {
		return i
	}
	if i := slices.IndexFunc(wanted.Filters, func(f kit.Filter) bool { return alsoWritten(f, written) }); i >= 0 {
		return i
	}
	found := -1
	for i, f := range wanted.Filters {
		if usual(f.Name) != usual(name) {
			continue
		}
		if found >= 0 {
			return -1
		}
		found = i
	}
	return found
}

// alsoWritten tells that the kit gives a name, plainly written, as another one of a filter's.
func alsoWritten(f kit.Filter, written string) bool {
	return f.AlsoWritten != "" && slices.ContainsFunc(strings.Split(f.AlsoWritten, ","), func(name string) bool { return bare(name) == written })
}

// usual returns one way of writing for all of a filter's name.
func usual(name string) string {
	written := bare(plain(name))
	for _, ways := range sameFilters() {
		if slices.Contains(ways, written) {
			return ways[0]
		}
	}
	return written
}

// aside is what people write beside a filter's name: its width, its place in the wheel, and what it is.
var aside = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)\(\s*\d+\s*\)|\b\d+(?:[.,]\d+)?\s*nm\b|\bfilter\b|\bband\b|[\[\]]`)
})

// plain returns a filter's name without what is beside it, or as it was where nothing else is left.
func plain(name string) string {
	if rest := aside().ReplaceAllString(name, " "); strings.TrimSpace(rest) != "" {
		return rest
	}
	return name
}

// bare returns a name in small letters, without what people set between its parts.
func bare(name string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '-', '_':
			return -1
		}
		return unicode.ToLower(r)
	}, name)
}
