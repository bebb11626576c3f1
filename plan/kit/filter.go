package kit

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"duskhand/sky/decimal"
)

// Filter is one filter's share of the night: Count subs of Exposure each, over all runs. BandwidthNM is the
// width of its band, 0 when the file is silent; CentreNM is the middle of it, that of its Line if it is one for a
// line. FocusOffsetUM is where it comes to focus, along the light, positive away from the lens.
type Filter struct {
	Name          string
	Exposure      time.Duration
	Count         int
	Kind          FilterKind
	Line          string // the name of a spectral line, "" for a broad filter and for a wavelength of the person's own
	CentreNM      float64
	BandwidthNM   float64
	FocusOffsetUM float64
	AlsoWritten   string // other names of it in FILTER cards, with commas between
}

// FilterKind is what a filter is for.
type FilterKind string

// The kinds.
const (
	Broad      FilterKind = "broad" // a colour, or all of them
	LineFilter FilterKind = "line"  // one line of a glowing gas, and as little else as can be
)

// middleOfV is where a filter is taken to lie whose name says nothing, in nm.
const middleOfV = 550

// SpectralLine is a line of a nebula's gas. NM is its wavelength in air; of a close pair, the middle.
//
// Source: Osterbrock & Ferland 2006, Astrophysics of Gaseous Nebulae, tables 4.2 and 3.12 to 3.15 (memory).
type SpectralLine struct {
	Name    string
	NM      float64
	aliases []string // small letters and figures only
}

// SpectralLines returns the lines that a kit may name; [S II] is half-way between 671.6 and 673.1.
func SpectralLines() []SpectralLine {
	return []SpectralLine{
		{"Hα", 656.28, []string{"ha", "hα", "halpha"}},
		{"Hβ", 486.13, []string{"hb", "hβ", "hbeta"}},
		{"[O III]", 500.68, []string{"oiii", "o3"}},
		{"[S II]", 672.4, []string{"sii", "s2"}},
		{"[N II]", 658.34, []string{"nii", "n2"}},
	}
}

// broadNames are the colours that a filter's name tells, and where filters of that name lie, to within some
// 15 nm: common practice.
var broadNames = []struct {
	nm    float64
	names []string
}{
	{550, []string{"l", "lum", "luminance", "clear", "v"}},
	{635, []string{"r", "red"}},
	{530, []string{"g", "green"}},
	{455, []string{"b", "blue"}},
}

// plainly returns a filter's or line's name without case, blanks and brackets.
func plainly(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" []()-_.", r) {
			return -1
		}
		return r
	}, strings.ToLower(name))
}

// widthInName matches the width that a filter's name may tell, "3nm", "3 nm", "4.5 nm".
var widthInName = regexp.MustCompile(`(?i)\s*\b(\d+(?:[.,]\d+)?)\s*nm\b`)

// The bandwidths that a filter may have, in nm.
const (
	narrowest = 0.1
	widest    = 1000
)

// withoutWidth returns a filter's name without its width, as in "Ha 3nm".
func withoutWidth(name string) string {
	return strings.TrimSpace(widthInName.ReplaceAllString(name, ""))
}

// widthOf returns the width that a filter's name tells, in nm; 0 for none.
func widthOf(name string) float64 {
	found := widthInName.FindStringSubmatch(name)
	if found == nil {
		return 0
	}
	nm, err := decimal.Parse(found[1])
	if err != nil || nm < narrowest || nm > widest {
		return 0
	}
	return nm
}

// lineNamed returns the line that a word means.
func lineNamed(word string) (SpectralLine, bool) {
	for _, line := range SpectralLines() {
		if plainly(word) == plainly(line.Name) || slices.Contains(line.aliases, plainly(word)) {
			return line, true
		}
	}
	return SpectralLine{}, false
}

func lineNames() (names []string) {
	for _, line := range SpectralLines() {
		names = append(names, line.Name)
	}
	return names
}

func filterFields() []field {
	return []field{
		{key: "subs.filter.name", kind: text, min: 1, max: 20, need: required, example: "L",
			help: "The filter's name, as the FILTER card of the subs has it.",
			set:  func(d *draft, v value) { d.filter().Name = v.text }},
		{key: "subs.filter.exposure_s", kind: number, unit: "s", min: 0.001, max: 7200, need: required, example: "60",
			help: "Length of one sub.",
			set:  func(d *draft, v value) { d.filter().Exposure = v.seconds() }},
		{key: "subs.filter.count", kind: whole, unit: "subs", min: 1, max: 100000, need: required, example: "120",
			help: "Subs wanted in total.",
			set:  func(d *draft, v value) { d.filter().Count = v.whole() }},
		{key: "subs.filter.kind", kind: choice, options: []string{string(Broad), string(LineFilter)}, need: optional, example: "line",
			help: "A colour, or one line of a glowing gas; if left out, what its name says: Ha and OIII are lines, L and R are broad.",
			set:  func(d *draft, v value) { d.filter().Kind = FilterKind(v.text) }},
		{key: "subs.filter.line", kind: spectral, unit: "nm", min: 300, max: 1100, options: lineNames(), need: optional, example: "Hα",
			help: "The line that it is for, by name or wavelength.",
			set: func(d *draft, v value) {
				d.filter().Line, d.filter().CentreNM = v.text, v.number
			}},
		{key: "subs.filter.centre_nm", kind: number, unit: "nm", min: 300, max: 1100, need: optional, example: "550",
			help: "The middle of a broad filter's band; if left out, what its name says: 550 for L, 635, 530 and 455 for R, G and B.",
			set:  func(d *draft, v value) { d.filter().CentreNM = v.number }},
		{key: "subs.filter.bandwidth_nm", kind: number, unit: "nm", min: narrowest, max: widest, need: optional, example: "300",
			help: "Width of the band that the filter lets through; if left out, what its name says, as in Ha 3nm.",
			set:  func(d *draft, v value) { d.filter().BandwidthNM = v.number }},
		{key: "subs.filter.focus_offset_um", kind: number, unit: "µm", min: -5000, max: 5000, fallback: 0.0, example: "-30",
			help: "How far from the first filter's focus this one's lies, positive away from the lens.",
			set:  func(d *draft, v value) { d.filter().FocusOffsetUM = v.number }},
		{key: "subs.filter.also_written", kind: text, min: 1, max: 200, need: optional, example: "Lum 2, clear glass",
			help: "Other names under which FILTER cards have it, with commas between.",
			set:  func(d *draft, v value) { d.filter().AlsoWritten = v.text }},
	}
}

// checkFilters also gives each filter the kind and middle that its keys or its name say.
func (r *reader) checkFilters() {
	filters := r.draft.kit.Subs.Filters
	r.distinct("subs.filter", "name", len(filters), "subs are counted by filter; give each filter once")
	for i := range filters {
		r.checkFilter(&filters[i], item("subs.filter", i+1))
	}
}

func (r *reader) checkFilter(f *Filter, path string) {
	if r.sound(path+".name") && strings.ContainsAny(f.Name, ",;") {
		r.fault(path+".name", fmt.Sprintf("= %s looks like several filters; give each a [[subs.filter]] of its own", shown(f.Name)))
	}
	kindPath, linePath, centrePath := path+".kind", path+".line", path+".centre_nm"
	named, isLine := lineNamed(withoutWidth(f.Name))
	switch {
	case r.sound(kindPath, linePath) && f.Kind == Broad:
		r.accuse(linePath, "belongs to a line filter, against", kindPath, "leave out one of the two")
	case r.sound(centrePath, linePath):
		r.accuse(centrePath, "stands beside", linePath, "a line is where it is; leave centre_nm out")
	case r.sound(kindPath) && f.Kind == LineFilter && f.CentreNM == 0 && !isLine && !r.faulty[linePath]:
		r.fault(kindPath, `= "line" and the name tells no line; give line = "`+strings.Join(lineNames(), `", "`)+`" or a wavelength in nm`)
	}
	switch {
	case r.given[linePath]:
		f.Kind = LineFilter
	case f.Kind == "" && isLine && f.CentreNM == 0, f.Kind == LineFilter && f.CentreNM == 0:
		f.Kind, f.Line, f.CentreNM = LineFilter, named.Name, named.NM
	case f.Kind == "":
		f.Kind = Broad
	}
	if f.CentreNM == 0 {
		f.CentreNM = middleOf(f.Name)
	}
	if !r.given[path+".bandwidth_nm"] {
		f.BandwidthNM = widthOf(f.Name)
	}
}

// middleOf returns where a broad filter of a name lies.
func middleOf(name string) float64 {
	for _, colour := range broadNames {
		if slices.Contains(colour.names, plainly(withoutWidth(name))) {
			return colour.nm
		}
	}
	return middleOfV
}
