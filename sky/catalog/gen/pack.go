package main

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
)

// The columns of stars.csv.
const (
	columnHIP = iota
	columnRA
	columnDec
	columnMag
	columnMotionRA
	columnMotionDec
	columnBayer
	columnFlamsteed
	columnConstellation
	columnIAUName
	columnOtherNames
)

// packed is stars.bin in the making; package catalog describes the file.
type packed struct {
	constellations                 []string
	records, motions, sizes, names bytes.Buffer
	moving                         uint32
}

// pack makes stars.bin of stars.csv as it lies in the tree.
func pack(inputs) ([]byte, error) {
	text, err := os.ReadFile("sky/catalog/stars.csv")
	if err != nil {
		return nil, err
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		return nil, err
	}
	var p packed
	for i, row := range rows[1:] {
		if err := p.add(row); err != nil {
			return nil, fmt.Errorf("line %d: %w", i+2, err)
		}
	}
	var out bytes.Buffer
	for _, n := range []int{len(rows) - 1, len(p.constellations), int(p.moving)} {
		put(&out, uint32(n))
	}
	for _, part := range [][]byte{[]byte(strings.Join(p.constellations, "")), p.records.Bytes(), p.motions.Bytes(), p.sizes.Bytes(), p.names.Bytes()} {
		out.Write(part)
	}
	return out.Bytes(), nil
}

func put(to *bytes.Buffer, number any) {
	if err := binary.Write(to, binary.LittleEndian, number); err != nil {
		panic(err) // a buffer takes all, and the numbers have sizes
	}
}

func (p *packed) add(row []string) error {
	ra, err := scaled(row[columnRA], 1e4)
	if err != nil {
		return err
	}
	dec, err := scaled(row[columnDec], 1e4)
	if err != nil {
		return err
	}
	mag, err := scaled(row[columnMag], 100)
	if err != nil {
		return err
	}
	names := namesOf(row)
	marks := byte(len(names))
	if marks >= 0x40 {
		return fmt.Errorf("%d names, too many for their byte", len(names))
	}
	if row[columnIAUName] != "" {
		marks |= 0x40
	}
	if row[columnMotionRA] != "" {
		marks |= 0x80
		if err := p.addMotion(row); err != nil {
			return err
		}
	}
	put(&p.records, uint32(ra))
	put(&p.records, int32(dec))
	put(&p.records, int16(mag))
	p.records.Write([]byte{p.constellation(row[columnConstellation]), marks})
	for _, name := range names {
		if len(name) > math.MaxUint8 {
			return fmt.Errorf("%q is too long for its byte", name)
		}
		p.sizes.WriteByte(byte(len(name)))
		p.names.WriteString(name)
	}
	return nil
}

// scaled reads a decimal as a whole number of its last digits.
func scaled(text string, scale float64) (int64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, err
	}
	n := math.Round(v * scale)
	if n/scale != v {
		return 0, fmt.Errorf("%s has more digits than stars.bin keeps", text)
	}
	return int64(n), nil
}

func (p *packed) addMotion(row []string) error {
	p.moving++
	for _, column := range []int{columnMotionRA, columnMotionDec} {
		v, err := strconv.ParseFloat(row[column], 64)
		if err != nil {
			return err
		}
		put(&p.motions, v)
	}
	return nil
}

func (p *packed) constellation(abbreviation string) byte {
	i := slices.Index(p.constellations, abbreviation)
	if i < 0 {
		i = len(p.constellations)
		p.constellations = append(p.constellations, abbreviation)
	}
	return byte(i)
}

// idOf chooses the designation that observers use: a Greek letter, else Flamsteed's number, else a Latin
// letter, else the Hipparcos number.
func idOf(row []string) string {
	bayer, flamsteed := row[columnBayer], row[columnFlamsteed]
	switch {
	case bayer != "" && bayer[0] >= 0x80: // Greek in UTF-8
		return bayer
	case flamsteed != "":
		return flamsteed
	case bayer != "":
		return bayer
	}
	return row[columnHIP]
}

// namesOf returns a star's names: the IAU's first; a star without one goes by its designation, and names that
// only some books give it come after that.
func namesOf(row []string) (names []string) {
	if row[columnIAUName] != "" {
		names = append(names, row[columnIAUName])
	}
	id := idOf(row)
	names = append(names, id)
	if row[columnOtherNames] != "" {
		names = append(names, strings.Split(row[columnOtherNames], "; ")...)
	}
	for _, column := range []int{columnBayer, columnFlamsteed, columnHIP} {
		if d := row[column]; d != "" && d != id {
			names = append(names, d)
		}
	}
	return names
}
