package main

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"

	"duskhand/sky"
)

// motion is a proper motion in mas/yr, RA with cos δ.
type motion struct{ raMas, decMas float64 }

func (m *motion) columns() string {
	if m == nil {
		return ","
	}
	return strconv.FormatFloat(m.raMas, 'f', -1, 64) + "," + strconv.FormatFloat(m.decMas, 'f', -1, 64)
}

// A row of sefstars.txt is the same star as one of ours within 10″ and one magnitude: the places are
// both at J2000.0 and good to 0.4″, doubles are a few arcseconds apart, and some magnitudes of the file
// are those of the pair.
const (
	sameStarArcsec = 10
	sameStarMag    = 1.0
)

// addMotions matches the rows of sefstars.txt to stars by place, for its names are often others'.
func addMotions(list []*star, path string) error {
	rows, err := readSefstars(path)
	if err != nil {
		return err
	}
	for _, row := range rows {
		if s := nearest(list, row); s != nil && s.motion == nil {
			s.motion = &motion{row.raMas, row.decMas}
		}
	}
	index := byHIP(list)
	for _, f := range motionFixes() {
		s := index[f.hip]
		if s == nil {
			return fmt.Errorf("no star for the fix of HIP %d (%s)", f.hip, f.why)
		}
		s.motion = &motion{f.raMas, f.decMas}
	}
	return nil
}

// sefRow is a row of sefstars.txt: place in the ICRF at J2000.0, motion in mas/yr with cos δ.
type sefRow struct {
	designation                       string // "alCMa"
	raDeg, decDeg, raMas, decMas, mag float64
}

func readSefstars(path string) ([]sefRow, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var rows []sefRow
	for i, line := range strings.Split(string(text), "\n") {
		f := strings.Split(line, ",")
		if strings.HasPrefix(line, "#") || len(f) < 14 || strings.TrimSpace(f[2]) != "ICRS" {
			continue
		}
		v := make([]float64, len(f))
		for _, k := range []int{3, 4, 5, 6, 7, 8, 9, 10, 13} {
			if v[k], err = strconv.ParseFloat(strings.TrimSpace(f[k]), 64); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", path, i+1, err)
			}
		}
		dec := math.Abs(v[6]) + v[7]/60 + v[8]/3600
		if strings.HasPrefix(strings.TrimSpace(f[6]), "-") {
			dec = -dec
		}
		rows = append(rows, sefRow{strings.TrimSpace(f[1]), 15 * (v[3] + v[4]/60 + v[5]/3600), dec, v[9], v[10], v[13]})
	}
	return rows, nil
}

func nearest(list []*star, row sefRow) *star {
	var best *star
	closest := sameStarArcsec * sky.Arcsecond
	for _, s := range list {
		if math.Abs(s.decDeg-row.decDeg) > 0.01 || math.Abs(s.mag-row.mag) > sameStarMag {
			continue
		}
		if d := separation(s.raDeg, s.decDeg, row.raDeg, row.decDeg); d < closest {
			best, closest = s, d
		}
	}
	return best
}

func separation(ra1Deg, dec1Deg, ra2Deg, dec2Deg float64) sky.Angle {
	at := func(ra, dec float64) sky.Direction {
		return sky.J2000{RA: sky.Angle(ra) * sky.Degree, Dec: sky.Angle(dec) * sky.Degree}.Direction()
	}
	return at(ra1Deg, dec1Deg).Separation(at(ra2Deg, dec2Deg))
}
