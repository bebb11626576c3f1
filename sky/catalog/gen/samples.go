package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"unicode"

	"duskhand/sky/catalog"
)

// sampleFaintest is how faint the stars of the sample go: those that anyone would align on.
const sampleFaintest = 3.5

// placeSample copies designation, place and V of the bright stars of sefstars.txt, which has its places
// from SIMBAD, by another way than ours came.
func placeSample(in inputs) ([]byte, error) {
	rows, err := readSefstars(in.sefstars)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	out.WriteString("designation,ra_deg,dec_deg,v_mag\n")
	seen := map[string]bool{}
	for _, r := range rows {
		// Only stars have a small letter first: the file has poles, centres and galaxies besides.
		isStar := r.designation != "" && unicode.IsLower(rune(r.designation[0]))
		if !isStar || r.mag > sampleFaintest || seen[r.designation] {
			continue
		}
		seen[r.designation] = true
		fmt.Fprintf(&out, "%s,%.6f,%.6f,%g\n", r.designation, r.raDeg, r.decDeg, r.mag)
	}
	return out.Bytes(), nil
}

// deepSkySample copies designation, type, place and size of the objects of d3-celestial that bear a
// number of our table.
func deepSkySample(in inputs) ([]byte, error) {
	ours := map[string]string{}
	for _, o := range catalog.DeepSky() {
		for _, name := range o.Names {
			ours[plain(name)] = o.ID
		}
	}
	var out bytes.Buffer
	out.WriteString("id,their_id,type,ra_deg,dec_deg,size_arcmin\n")
	for _, name := range []string{"messier.json", "dsos.14.json"} {
		var file struct {
			Features []struct {
				ID         any
				Properties struct{ Desig, Type, Dim string }
				Geometry   struct{ Coordinates [2]float64 }
			}
		}
		if err := readJSON(filepath.Join(in.celestial, name), &file); err != nil {
			return nil, err
		}
		for _, f := range file.Features {
			id, ra := fmt.Sprint(f.ID), f.Geometry.Coordinates[0]
			our, ok := ours[plain(id)]
			if !ok {
				our, ok = ours[plain(f.Properties.Desig)]
			}
			if !ok {
				continue
			}
			if ra < 0 {
				ra += 360
			}
			major, _, _ := strings.Cut(f.Properties.Dim, "x")
			fmt.Fprintf(&out, "%s,%s,%s,%.4f,%.4f,%s\n", our, id, f.Properties.Type, ra, f.Geometry.Coordinates[1], major)
		}
	}
	return out.Bytes(), nil
}

// plain makes "Sh2 155" and "Sh2-155" alike.
func plain(name string) string {
	return strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(name))
}
