package simulate

import (
	"fmt"
	"io"
	"os"

	"github.com/astrogo/fitsio"
)

// zeroOfUnsigned is what the standard adds to signed 16-bit numbers to make them unsigned.
// Source: FITS Standard 4.0, section 4.4.2.5, table 11.
const zeroOfUnsigned = 32768

// Write writes the frame as FITS: 16 bits, unsigned.
//
// Source: FITS Standard 4.0. IMAGETYP, FILTER, CCD-TEMP and XBINNING are not of the standard; they are what
// cameras write (common practice).
func (f Frame) Write(w io.Writer) error {
	image := fitsio.NewImage(16, []int{f.Width, f.Height})
	if err := image.Header().Append(f.cards()...); err != nil {
		return fmt.Errorf("making the header of a simulated frame: %w", err)
	}
	signed := make([]int16, len(f.Pixels))
	for i, v := range f.Pixels {
		signed[i] = int16(int32(v) - zeroOfUnsigned)
	}
	if err := image.Write(signed); err != nil {
		return fmt.Errorf("packing a simulated frame: %w", err)
	}
	file, err := fitsio.Create(w)
	if err != nil {
		return fmt.Errorf("beginning a simulated frame: %w", err)
	}
	if err := file.Write(image); err != nil {
		return fmt.Errorf("writing a simulated frame: %w", err)
	}
	return file.Close()
}

// Save writes the frame to a new file.
func (f Frame) Save(path string) (err error) {
	file, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("saving a simulated frame: %w", err)
	}
	defer func() {
		if closing := file.Close(); err == nil {
			err = closing
		}
	}()
	return f.Write(file)
}

func (f Frame) cards() []fitsio.Card {
	s, shot := f.scene, f.Shot
	cards := []fitsio.Card{
		{Name: "BZERO", Value: zeroOfUnsigned, Comment: "unsigned 16-bit numbers"},
		{Name: "BSCALE", Value: 1},
		{Name: "DATE-OBS", Value: shot.Start.UTC().Format("2006-01-02T15:04:05.000"), Comment: "start of exposure, UTC"},
		{Name: "TIMESYS", Value: "UTC"},
		{Name: "EXPTIME", Value: shot.Exposure.Seconds(), Comment: "seconds"},
		{Name: "IMAGETYP", Value: "LIGHT"},
	}
	if shot.Filter != "" {
		cards = append(cards, fitsio.Card{Name: "FILTER", Value: shot.Filter})
	}
	if s.Object != "" {
		cards = append(cards, fitsio.Card{Name: "OBJECT", Value: s.Object})
	}
	return append(cards,
		fitsio.Card{Name: "CCD-TEMP", Value: s.SensorCelsius, Comment: "degrees Celsius"},
		fitsio.Card{Name: "XBINNING", Value: 1},
		fitsio.Card{Name: "YBINNING", Value: 1},
		fitsio.Card{Name: "COMMENT", Comment: "simulated"},
	)
}
