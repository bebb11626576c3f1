// Command gen makes the data files of package catalog from the packages they come from, and the small
// tables that its tests check them against. Nothing runs it but a person who changes the catalogue:
//
//	npm pack d3-celestial@0.7.35                  # package/data: stars, names, deep-sky list
//	apt-get download swe-basic-data               # usr/share/libswe/ephe/sefstars.txt: proper motions
//	apt-get download python3-astropy              # constellation_data_roman87.dat: IAU boundaries
//	go run ./sky/catalog/gen -celestial DIR -sefstars FILE -roman FILE
//
// Unpack them anywhere (tar, dpkg -x). Run it from the top of the module. It writes
// sky/catalog/boundaries.csv, stars.csv and stars.bin, and testdata/catalog/*.csv. The constellation of a
// star comes from the boundaries compiled in, so after a change of the boundaries run it twice. With
// -pack it needs none of them, and only makes stars.bin anew of stars.csv.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

// inputs are the files that the generator reads.
type inputs struct {
	celestial string // folder data of the npm package d3-celestial
	sefstars  string // sefstars.txt of the Debian package swe-basic-data
	roman     string // constellation_data_roman87.dat of the Debian package python3-astropy
}

func main() {
	var in inputs
	flag.StringVar(&in.celestial, "celestial", "", "folder `DIR` with stars.8.json, starnames.json, dsos.14.json, messier.json")
	flag.StringVar(&in.sefstars, "sefstars", "", "`FILE` sefstars.txt")
	flag.StringVar(&in.roman, "roman", "", "`FILE` constellation_data_roman87.dat")
	only := flag.Bool("pack", false, "only make stars.bin of stars.csv")
	flag.Parse()
	if err := run(in, *only); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

// step makes one file.
type step struct {
	path string
	make func(inputs) ([]byte, error)
}

func run(in inputs, packOnly bool) error {
	steps := []step{
		{"sky/catalog/boundaries.csv", boundaries},
		{"sky/catalog/stars.csv", stars},
		{"sky/catalog/stars.bin", pack},
		{"testdata/catalog/places.csv", placeSample},
		{"testdata/catalog/deepsky.csv", deepSkySample},
	}
	if packOnly {
		steps = []step{{"sky/catalog/stars.bin", pack}}
	}
	for _, step := range steps {
		text, err := step.make(in)
		if err != nil {
			return fmt.Errorf("making %s: %w", step.path, err)
		}
		if err := os.WriteFile(filepath.FromSlash(step.path), text, 0o644); err != nil {
			return fmt.Errorf("writing %s: %w", step.path, err)
		}
		fmt.Printf("%s: %d bytes\n", step.path, len(text))
	}
	return nil
}
