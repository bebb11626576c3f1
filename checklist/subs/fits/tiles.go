package fits

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Where a tile's data stand, by the way they are kept (section 10.1.3).
const (
	inCode  = "COMPRESSED_DATA"      // by ZCMPTYPE
	inGzip  = "GZIP_COMPRESSED_DATA" // floating point that could not be made whole, packed as it stands
	inPlain = "UNCOMPRESSED_DATA"
)

// tiles is an image that is kept as a table of compressed tiles (section 10.1).
type tiles struct {
	table
	method     string // ZCMPTYPE
	rice       rice
	size, tile [3]int64 // pixels along the axes, of the image and of a tile; 1 along those it has not
	plane      int64    // the one that is read
	bitpix     int      // of the image as it was
	cards      cards
	quantised
}

// methods are the ways of compressing that are read. RICE_ONE is an older name.
var methods = []string{"RICE_1", "RICE_ONE", "GZIP_1", "GZIP_2", "NOCOMPRESS"}

// tiles reads what the header says of a compressed image, and how it lies when uncompressed: as one plane from
// byte 0 on. What it says is checked against the size of the file.
func (u unit) tiles(fileSize int64) (*tiles, layout, error) {
	t := &tiles{method: strings.ToUpper(u.words("ZCMPTYPE")), cards: u.cards}
	if !slices.Contains(methods, t.method) {
		return nil, layout{}, fmt.Errorf("ZCMPTYPE is %s; tiles of RICE_1, GZIP_1, GZIP_2 and NOCOMPRESS can be read",
			u.show("ZCMPTYPE", true))
	}
	var err error
	if t.table, err = u.table(fileSize); err != nil {
		return nil, layout{}, err
	}
	l, err := t.shape(u.uncompressed())
	if err != nil {
		return nil, layout{}, err
	}
	if !t.canBe(l) {
		return nil, layout{}, fmt.Errorf("the header promises %d × %d pixels, which cannot be in the %d bytes of its tiles, or are more "+
			"than the %d bytes that are unpacked", l.width, l.height, t.heapSize, mostUnpacked)
	}
	if err := t.grid(u); err != nil {
		return nil, layout{}, err
	}
	if err := t.parameters(u); err != nil {
		return nil, layout{}, err
	}
	return t, l, nil
}

// canBe tells whether the bytes of the heap can hold the image, all planes of it. The bound of what deflated data
// unpack to holds for Rice as well, whose 32 pixels of four bytes take five bits at least: 1 byte for 205.
func (t *tiles) canBe(l layout) bool {
	bytes := int64(1)
	for _, factor := range []int64{int64(l.pixelSize()), t.size[0], t.size[1], t.size[2]} {
		if bytes > mostUnpacked/factor {
			return false
		}
		bytes *= factor
	}
	return bytes/mostRatio <= t.heapSize
}

// uncompressed returns the cards of the image as it was: ZBITPIX as BITPIX, and so on (section 10.1.1).
func (u unit) uncompressed() unit {
	plain := unit{cards: maps.Clone(u.cards)}
	for keyword, v := range u.cards {
		switch name := strings.TrimPrefix(keyword, "Z"); {
		case name == keyword:
		case name == "BITPIX", strings.HasPrefix(name, "NAXIS"):
			plain.cards[name] = v
		case name == "BLANK":
			if _, said := u.cards[name]; !said {
				plain.cards[name] = v
			}
		}
	}
	return plain
}

// shape reads the image's axes and numbers; floating point is kept in 32 bits, whatever it was.
func (t *tiles) shape(u unit) (layout, error) {
	l := layout{scale: 1}
	bitpix, ok := u.whole("BITPIX")
	if t.bitpix = int(bitpix); !slices.Contains([]int64{8, 16, 32, 64, -32, -64}, bitpix) {
		return layout{}, fmt.Errorf("ZBITPIX is %s; it is one of 8, 16, 32, 64, -32, -64", u.show("BITPIX", ok))
	}
	l.bitpix = max(t.bitpix, -32)
	planes, err := u.axes(&l)
	if err != nil {
		return layout{}, fmt.Errorf("of the image in its tiles, %w", err)
	}
	t.size, l.planes = [3]int64{int64(l.width), int64(l.height), planes}, planes
	if planes == 3 {
		t.plane = 1
	}
	return l, u.scaling(&l)
}

// grid reads the size of a tile, and checks that there are as many as the image takes. Without a word a tile is a
// row (section 10.1.2).
func (t *tiles) grid(u unit) error {
	count := int64(1)
	for i := range t.tile {
		keyword := fmt.Sprintf("ZTILE%d", i+1)
		t.tile[i] = 1
		if i == 0 {
			t.tile[i] = t.size[0]
		}
		if _, said := u.cards[keyword]; said {
			length, ok := u.whole(keyword)
			if !ok || length < 1 {
				return fmt.Errorf("%s is %s; it is the length of a tile, 1 or more", keyword, u.show(keyword, ok))
			}
			t.tile[i] = min(length, t.size[i])
		}
		count *= (t.size[i] + t.tile[i] - 1) / t.tile[i]
	}
	if axes, _ := u.whole("ZNAXIS"); axes > 3 && t.size[2] > 1 {
		return fmt.Errorf("ZNAXIS is %d; tiles of an image of 2 axes, or 3 with planes of colour, can be read", axes)
	}
	if count != t.rows {
		return fmt.Errorf("its table has %d rows, which is not the number of tiles that the image takes", t.rows)
	}
	return nil
}

// parameters reads how the tiles are coded: ZNAMEn with ZVALn, ZQUANTIZ and ZDITHER0 (sections 10.1.1 and 10.2).
func (t *tiles) parameters(u unit) error {
	t.rice = rice{bytes: 4, block: 32}
	for i := 1; i <= 9; i++ {
		value, _ := u.whole(fmt.Sprintf("ZVAL%d", i))
		switch u.words(fmt.Sprintf("ZNAME%d", i)) {
		case "BLOCKSIZE":
			t.rice.block = value
		case "BYTEPIX":
			t.rice.bytes = value
		}
	}
	if _, known := riceWidths[t.rice.bytes]; !known || !riceBlocks[t.rice.block] {
		return fmt.Errorf("the tiles' BYTEPIX is %d and BLOCKSIZE %d; they are 1, 2 or 4, and 16 or 32", t.rice.bytes, t.rice.block)
	}
	t.quantised.method = noDither
	switch said := strings.ToUpper(u.words("ZQUANTIZ")); said {
	case dither, ditherZeros:
		first, ok := u.whole("ZDITHER0")
		if !ok || first < 1 || first > randomCount {
			return fmt.Errorf("ZDITHER0 is %s; it is a whole number from 1 to %d", u.show("ZDITHER0", ok), randomCount)
		}
		t.quantised.method, t.seed = said, first-1
	case "", "NONE", noDither:
	default:
		return fmt.Errorf("ZQUANTIZ is %q; %s, %s and %s can be read", said, noDither, dither, ditherZeros)
	}
	for _, name := range []string{"ZSCALE", "ZZERO", "ZBLANK"} {
		if c, has := t.columns[name]; has && (c.heap || !strings.ContainsRune("DEJIB", rune(c.letter))) {
			return fmt.Errorf("the column %s of its tiles is of the form %c; it is a number", name, c.letter)
		}
	}
	return nil
}
