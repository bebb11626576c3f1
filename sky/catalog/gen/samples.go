package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"duskhand/sky/catalog"
)

// hipparcosSample copies name, place at J2000.0 and V of the stars of ephem/stars.py, whose makers took
// them from the Hipparcos catalogue by another way than ours came.
func hipparcosSample(in inputs) ([]byte, error) {
	text, err := os.ReadFile(in.ephem)
	if err != nil {
		return nil, err
	}
	row := regexp.MustCompile(`(?m)^(?:db = """\\\n)?([A-Z][A-Za-z .'-]+),f\|[^,]*,([0-9.]+)\|[^,]*,(-?[0-9.]+)\|[^,]*,(-?[0-9.]+)`)
	var out bytes.Buffer
	out.WriteString("name,ra_hours,dec_deg,v_mag\n")
	for _, m := range row.FindAllStringSubmatch(string(text), -1) {
		fmt.Fprintf(&out, "%s,%s,%s,%s\n", m[1], m[2], m[3], m[4])
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
