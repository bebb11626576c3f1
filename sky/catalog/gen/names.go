package main

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"duskhand/sky/catalog"
)

// iauNames is the IAU Catalog of Star Names (WGSN), its stars to magnitude 6.5, written down from
// memory and checked against the names in sefstars.txt: iau_name,designation.
//
//go:embed iau.csv
var iauNames string

type nameRow struct{ Name, Bayer, Flam, C string }

// addDesignations fills in Bayer letters, Flamsteed numbers and names. The list is brightest first,
// and a designation or name belongs to its first bearer: θ¹ Ori is the brightest of its four stars.
func addDesignations(list []*star, path string) error {
	rows := map[string]nameRow{}
	if err := readJSON(path, &rows); err != nil {
		return err
	}
	taken := map[string]bool{}
	claim := func(name string) string {
		if name == "" || taken[name] {
			return ""
		}
		taken[name] = true
		return name
	}
	fixes := map[int]designationFix{}
	for _, f := range designationFixes() {
		fixes[f.hip] = f
	}
	for _, s := range list {
		row := rows[strconv.Itoa(s.hip)]
		bayer, flamsteed := designations(row, s.constellation)
		if f, ok := fixes[s.hip]; ok {
			bayer = f.bayer
			delete(fixes, s.hip)
		}
		s.bayer, s.flamsteed = claim(bayer), claim(flamsteed)
	}
	if len(fixes) > 0 {
		return fmt.Errorf("fixes for stars that are not there: %v", fixes)
	}
	return addNames(list, rows)
}

// designations returns "α CMa" and "9 CMa". The constellation is the source's, because some stars
// carry a letter or number of one that the IAU boundaries put elsewhere (10 UMa is in Lynx); where the
// source has none or a number ("482"), that of the boundaries.
func designations(row nameRow, fromBoundary string) (bayer, flamsteed string) {
	constellation := row.C
	if catalog.ConstellationName(constellation) == "" {
		constellation = fromBoundary
	}
	if row.Bayer != "" {
		letter := strings.NewReplacer("1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(row.Bayer)
		bayer = letter + " " + constellation
	}
	if row.Flam != "" {
		flamsteed = row.Flam + " " + constellation
	}
	return bayer, flamsteed
}

// addNames gives the IAU's names to the IAU's stars, then keeps a traditional name of the source where
// it is neither the IAU's for another star nor borne by a brighter one (Alnair is α Gru, not ζ Cen).
func addNames(list []*star, rows map[string]nameRow) error {
	owner := map[string]*star{}
	for _, s := range list {
		for _, d := range []string{s.bayer, s.flamsteed, "HIP " + strconv.Itoa(s.hip)} {
			if d != "" {
				owner[d] = s
			}
		}
	}
	taken := map[string]bool{}
	for name := range nameFixes() {
		taken[name] = true
	}
	for i, line := range strings.Split(strings.TrimSpace(iauNames), "\n") {
		name, designation, ok := strings.Cut(line, ",")
		if i == 0 {
			continue
		}
		s := owner[designation]
		if !ok || s == nil || s.iau != "" {
			return fmt.Errorf("gen/iau.csv:%d: %q has no star of its own", i+1, line)
		}
		s.iau, taken[name] = name, true
	}
	for _, s := range list {
		name := rows[strconv.Itoa(s.hip)].Name
		if name != "" && !taken[name] && !slices.Contains(s.others, name) {
			s.others, taken[name] = append(s.others, name), true
		}
	}
	return nil
}
