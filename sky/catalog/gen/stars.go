package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

// faintest is the V magnitude down to which stars are kept.
const faintest = 6.5

// star is one row of stars.csv in the making.
type star struct {
	hip              int
	raDeg, decDeg    float64 // as given: rounded to 0.0001°
	mag              float64
	motion           *motion
	bayer, flamsteed string // "α CMa", "9 CMa"
	constellation    string
	iau              string
	others           []string
}

type collection[P any] struct {
	Features []struct {
		ID         int
		Properties P
		Geometry   struct{ Coordinates [2]float64 }
	}
}

func stars(in inputs) ([]byte, error) {
	list, err := readStars(filepath.Join(in.celestial, "stars.8.json"))
	if err != nil {
		return nil, err
	}
	if err := addDesignations(list, filepath.Join(in.celestial, "starnames.json")); err != nil {
		return nil, err
	}
	if err := addMotions(list, in.sefstars); err != nil {
		return nil, err
	}
	return starsCSV(list), nil
}

// readStars reads places and magnitudes, brightest first.
func readStars(path string) ([]*star, error) {
	var file collection[struct{ Mag float64 }]
	if err := readJSON(path, &file); err != nil {
		return nil, err
	}
	var list []*star
	for _, f := range file.Features {
		if f.Properties.Mag > faintest {
			continue
		}
		s := &star{hip: f.ID, raDeg: f.Geometry.Coordinates[0], decDeg: f.Geometry.Coordinates[1], mag: f.Properties.Mag}
		if s.raDeg < 0 {
			s.raDeg += 360
		}
		place := sky.J2000{RA: sky.Angle(s.raDeg) * sky.Degree, Dec: sky.Angle(s.decDeg) * sky.Degree}
		s.constellation = catalog.Constellation(place)
		list = append(list, s)
	}
	slices.SortFunc(list, func(a, b *star) int {
		if a.mag != b.mag {
			if a.mag < b.mag {
				return -1
			}
			return 1
		}
		return a.hip - b.hip
	})
	return list, nil
}

func readJSON(path string, into any) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, into); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return nil
}

func starsCSV(list []*star) []byte {
	var out bytes.Buffer
	out.WriteString("hip,ra_deg,dec_deg,v_mag,pm_ra_mas,pm_dec_mas,bayer,flamsteed,constellation,iau_name,other_names\n")
	for _, s := range list {
		fmt.Fprintf(&out, "HIP %d,%s,%s,%s,%s,%s,%s,%s,%s,%s\n", s.hip,
			strconv.FormatFloat(s.raDeg, 'f', 4, 64), strconv.FormatFloat(s.decDeg, 'f', 4, 64),
			strconv.FormatFloat(s.mag, 'f', 2, 64), s.motion.columns(),
			s.bayer, s.flamsteed, s.constellation, s.iau, strings.Join(s.others, "; "))
	}
	return out.Bytes()
}

func byHIP(list []*star) map[int]*star {
	m := make(map[int]*star, len(list))
	for _, s := range list {
		m[s.hip] = s
	}
	return m
}
