package fits

import (
	"fmt"
	"math"
)

// layout is how the pixels of the plane that is measured lie in the file.
type layout struct {
	bitpix        int
	width, height int
	offset        int64 // of the plane's first byte
	zero, scale   float64
	blank         *int64 // raw value of pixels without one; whole numbers only
	planes        int64
}

// layout reads what the header says of the image and checks it against the size of the file.
//
// Of an image in three axes one plane is taken: with three planes the second, which by custom is green and
// holds most of the light, otherwise the first.
func (u unit) layout(fileSize int64) (layout, error) {
	l := layout{scale: 1}
	bitpix, ok := u.whole("BITPIX")
	switch bitpix {
	case 8, 16, 32, 64, -32, -64:
		l.bitpix = int(bitpix)
	default:
		return layout{}, fmt.Errorf("BITPIX is %s; it is one of 8, 16, 32, 64, -32, -64", u.show("BITPIX", ok))
	}
	planes, err := u.axes(&l)
	if err != nil {
		return layout{}, err
	}
	if size, ok := u.dataSize(fileSize - u.data); !ok || u.data+size > fileSize {
		return layout{}, fmt.Errorf("the header promises %s × %s pixels of %d bits, but %d bytes follow it: %w",
			u.show("NAXIS1", true), u.show("NAXIS2", true), max(bitpix, -bitpix), fileSize-u.data, ErrCutShort)
	}
	l.offset, l.planes = u.data, planes
	if planes == 3 {
		l.offset += l.planeSize()
	}
	return l, u.scaling(&l)
}

// axes sets width and height and returns the number of planes.
func (u unit) axes(l *layout) (planes int64, err error) {
	n, ok := u.whole("NAXIS")
	if !ok || n < 2 || n > 999 {
		return 0, fmt.Errorf("NAXIS is %s; an image has 2 axes, or 3 with planes of colour", u.show("NAXIS", ok))
	}
	planes = 1
	for i := range n {
		keyword := fmt.Sprintf("NAXIS%d", i+1)
		length, ok := u.whole(keyword)
		if !ok || length < 1 || length > math.MaxInt32 {
			return 0, fmt.Errorf("%s is %s; it is the number of pixels along an axis, 1 or more", keyword, u.show(keyword, ok))
		}
		switch {
		case i == 0:
			l.width = int(length)
		case i == 1:
			l.height = int(length)
		case length > math.MaxInt32/planes:
			return 0, fmt.Errorf("%s is %d; a frame has one plane or three", keyword, length)
		default:
			planes *= length
		}
	}
	return planes, nil
}

// scaling sets BZERO, BSCALE and BLANK (sections 4.4.2.5 and 5.2).
func (u unit) scaling(l *layout) error {
	var ok bool
	if _, said := u.cards["BSCALE"]; said {
		if l.scale, ok = u.number("BSCALE"); !ok || l.scale == 0 {
			return fmt.Errorf("BSCALE is %s; it is a number other than 0", u.show("BSCALE", true))
		}
	}
	if _, said := u.cards["BZERO"]; said {
		if l.zero, ok = u.number("BZERO"); !ok {
			return fmt.Errorf("BZERO is %s; it is a number", u.show("BZERO", true))
		}
	}
	if blank, said := u.whole("BLANK"); said && l.bitpix > 0 {
		l.blank = &blank
	}
	return nil
}

// show gives a value as it stands in the header, for an error.
func (u unit) show(keyword string, ok bool) string {
	if _, said := u.cards[keyword]; !said {
		return "missing"
	}
	if !ok {
		return fmt.Sprintf("%q", u.words(keyword))
	}
	return u.words(keyword)
}

// planeSize returns the bytes of one plane.
func (l layout) planeSize() int64 {
	return int64(l.width) * int64(l.height) * int64(l.pixelSize())
}

func (l layout) pixelSize() int { return max(l.bitpix, -l.bitpix) / 8 }
