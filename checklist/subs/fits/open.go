// Package fits reads the frames that a capture computer writes, by the FITS Standard 4.0 (IAU FITS Working
// Group, 2018): what the header says, and one plane of pixels. It opens files for reading only, and never
// writes, moves or locks one.
//
// The cards are read here, not by github.com/astrogo/fitsio, because a frame in the folder may be anything:
// half written, damaged, or no frame at all. Version 0.3.0 of that library panics where a card holds
// another type than expected or a keyword stands twice, allocates whatever the header promises before it
// looks at the file, reads every unit of the file into memory, and cuts texts at 70 characters. The tests
// use it as an independent writer and reader.
package fits

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"duskhand/checklist/subs"
)

// ErrCutShort is in the error of a file that ends before what its header promises: it may still be growing.
var ErrCutShort = errors.New("the frame is cut short; a whole one is needed")

// Frame is a frame that is open for reading.
type Frame struct {
	Header  subs.Header
	Remarks []string // what the header says that could not be used, in words, with the name of the file

	name   string
	file   io.ReaderAt
	close  func() error
	layout layout
	tiles  *tiles // nil of a frame that is not compressed in tiles
}

// Open opens a file for reading and returns what its header says. Its error names the file, what is wrong
// and what would be right. The caller closes the frame.
func Open(path string) (*Frame, error) {
	name := filepath.Base(path)
	// A pipe would keep its opener waiting for a writer, so look before opening.
	if info, err := os.Stat(path); err != nil {
		return nil, fmt.Errorf("looking at %s: %w", name, err)
	} else if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a file that can be read as a frame", name)
	}
	file, err := open(path)
	if err != nil {
		return nil, fmt.Errorf("opening %s: %w", name, err)
	}
	info, err := file.Stat()
	if err != nil {
		return nil, errors.Join(fmt.Errorf("looking at %s: %w", name, err), file.Close())
	}
	frame, err := Read(name, file, info.Size())
	if err != nil {
		return nil, errors.Join(err, file.Close())
	}
	frame.close = file.Close
	return frame, nil
}

// Read returns what the header of an opened file of size bytes says; one packed with gzip, or compressed in tiles, is
// unpacked as it is read. name is what errors call it.
func Read(name string, file io.ReaderAt, size int64) (*Frame, error) {
	if size == 0 {
		return nil, fmt.Errorf("%s is empty: %w", name, ErrCutShort)
	}
	if packed(file) {
		whole, unpackedSize, err := unpack(file, size)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		file, size = whole, unpackedSize
	}
	primary, image, err := findImage(file, size)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	frame := &Frame{name: name, file: file, close: func() error { return nil }}
	if err := frame.lie(image, size); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	frame.say(inherited(primary.cards, image.cards))
	return frame, nil
}

// lie reads how the image lies in the file of size bytes.
func (f *Frame) lie(image unit, size int64) (err error) {
	if !image.says("ZIMAGE") {
		f.layout, err = image.layout(size)
		return err
	}
	if _, twice := f.file.(*unpacked); twice { // tiles are read in any order, gzip only forward
		return errors.New("holds compressed tiles and is packed with gzip around them; it can be read when unpacked once")
	}
	f.tiles, f.layout, err = image.tiles(size)
	return err
}

// Close closes the file.
func (f *Frame) Close() error { return f.close() }

// inherited returns the image's cards with the primary's behind them, where writers of extensions leave
// what concerns the whole file.
func inherited(primary, image cards) cards {
	all := cards{}
	for keyword, v := range primary {
		all[keyword] = v
	}
	for keyword, v := range image {
		all[keyword] = v
	}
	return all
}
