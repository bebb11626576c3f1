package fits

import (
	"errors"
	"fmt"
	"io"

	"duskhand/sky/words"
)

// findImage returns the primary header and the one of the first picture: of the primary itself, of an image extension
// (section 7.1), or of one compressed in tiles (section 10). Parts with fewer than two axes hold none: writers put
// empty ones before their pictures.
func findImage(file io.ReaderAt, size int64) (primary, image unit, err error) {
	primary, err = readUnit(file, 0)
	if err != nil {
		return unit{}, unit{}, err
	}
	if !primary.says("SIMPLE") {
		return unit{}, unit{}, errors.New("SIMPLE is not T: the file says itself that it does not keep to the FITS standard")
	}
	if !primary.tooFlat() {
		return primary, primary, nil
	}
	var others []string
	more, at, image := 0, int64(0), primary
	for {
		data, ok := image.dataSize(size - image.data)
		if !ok {
			return unit{}, unit{}, fmt.Errorf("the part that begins at byte %d does not fit into the file: %w", at, ErrCutShort)
		}
		if at = image.data + padded(data); at >= size {
			return unit{}, unit{}, noPicture(primary, others, more)
		}
		if image, err = readUnit(file, at); err != nil {
			return unit{}, unit{}, fmt.Errorf("the part that begins at byte %d: %w", at, err)
		}
		if image.says("ZIMAGE") || image.words("XTENSION") == "IMAGE" && !image.tooFlat() {
			return primary, image, nil
		}
		if len(others) < mostNamed {
			others = append(others, image.called())
		} else {
			more++
		}
	}
}

// tooFlat tells that a part says itself that it has no two axes.
func (u unit) tooFlat() bool {
	axes, ok := u.whole("NAXIS")
	return ok && (axes == 0 || axes == 1)
}

// mostNamed is how many parts an error names.
const mostNamed = 4

// called names an extension by its kind and what its writer calls it.
func (u unit) called() string {
	name := u.words("XTENSION")
	if u.tooFlat() {
		name += " with NAXIS " + u.words("NAXIS")
	}
	if own := u.words("EXTNAME"); own != "" {
		name += fmt.Sprintf(" %q", own)
	}
	return name
}

// noPicture says what a file holds in place of a picture: so many parts by their names, and more.
func noPicture(primary unit, others []string, more int) error {
	text := fmt.Sprintf("holds no image: NAXIS is %s and no image extension follows", primary.words("NAXIS"))
	if more > 0 {
		others = append(others, fmt.Sprintf("%d more", more))
	}
	if len(others) > 0 {
		text += ", only " + words.List(others)
	}
	return errors.New(text)
}
