package deep

import (
	_ "embed"

	"duskhand/sky"
)

// packed is the layer, in the format that gen/pack.py describes.
//
//go:embed stars.bin
var packed string

// The format, version 2. A test compares these with the head of the file.
const (
	version     = 2
	cellsAcross = 55 // HEALPix's Nside: cells along a side of each of the twelve base cells
	cellCount   = 12 * cellsAcross * cellsAcross

	headBytes  = 12
	startsFrom = headBytes
	limitsFrom = startsFrom + 4*(cellCount+1)
	drawnFrom  = limitsFrom + cellCount
	starsFrom  = drawnFrom + cellCount
	starBytes  = 5

	magnitudeZero  = 30 // the code of magnitude 0
	magnitudeSteps = 20 // per magnitude
	faintZero      = 10 // the magnitude of code 0 of the stars that are not for drawing
	faintSteps     = 50
	placeSteps     = 65536
)

func uint16At(at int) int { return int(packed[at]) | int(packed[at+1])<<8 }

func uint32At(at int) int { return uint16At(at) | uint16At(at+2)<<16 }

func magnitudeAt(at int) float64 { return float64(int(packed[at])-magnitudeZero) / magnitudeSteps }

func faintAt(at int) float64 { return faintZero + float64(packed[at])/faintSteps }

// first, drawn and end bound the numbers of a cell's stars: those for drawing, and the fainter ones.
func (c cell) first() int { return uint32At(startsFrom + 4*c.number) }
func (c cell) drawn() int { return c.first() + int(packed[drawnFrom+c.number]) }
func (c cell) end() int   { return uint32At(startsFrom + 4*(c.number+1)) }

// complete returns the magnitude to which the cell has every star of Tycho-2.
func (c cell) complete() float64 { return magnitudeAt(limitsFrom + c.number) }

// place returns the place of star i, one of the cell's.
func (c cell) place(i int) sky.J2000 {
	at := starsFrom + i*starBytes
	return c.point((float64(uint16At(at+1))+0.5)/placeSteps, (float64(uint16At(at+3))+0.5)/placeSteps)
}
