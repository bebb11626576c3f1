package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
)

// boundaries turns Roman's table (1987, PASP 99, 695; CDS VI/42) into CSV, keeping its order, on which
// the look-up depends: the first row whose lower declination and range of right ascension fit.
func boundaries(in inputs) ([]byte, error) {
	text, err := os.ReadFile(in.roman)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	out.WriteString("ra_from_hours,ra_to_hours,dec_from_deg,constellation\n")
	for i, line := range strings.Split(string(text), "\n") {
		fields := strings.Fields(line)
		if len(fields) == 0 || fields[0] == "#" {
			continue
		}
		if len(fields) != 4 {
			return nil, fmt.Errorf("%s:%d: %d fields, 4 expected", in.roman, i+1, len(fields))
		}
		fmt.Fprintf(&out, "%s,%s,%s,%s\n", fields[0], fields[1], fields[2], fields[3])
	}
	return out.Bytes(), nil
}
