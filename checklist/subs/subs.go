// Package subs knows the frames that the capture computer writes: what their headers say and what their
// stars look like. Its sub-packages read them (fits), measure them (measure), compare one with the next
// (turning), notice new ones (watch) and make artificial ones to test with (simulate).
//
// Pixel coordinates count from nought: the centre of the first pixel of the file is (0, 0), X runs along a
// row, Y from row to row in the order of the file. (The FITS standard's own pixel coordinates are larger by
// one.) Fluxes are in ADU above the local background.
package subs

import (
	"time"

	"duskhand/sky"
)

// Kind is what a frame was taken for.
type Kind string

// The kinds. UnknownKind is a frame whose header does not say.
const (
	Light       Kind = "light"
	Dark        Kind = "dark"
	Flat        Kind = "flat"
	Bias        Kind = "bias"
	UnknownKind Kind = ""
)

// Header is what a frame says about itself; what it does not say is nil or empty.
type Header struct {
	Start         *time.Time     // of the exposure, UTC
	Exposure      *time.Duration // of the exposure
	Filter        string         // as written, without the spaces around it
	Object        string         // as written
	Kind          Kind
	SensorC       *float64  // temperature of the sensor, °C
	BinX, BinY    int       // 1 when the header does not say
	Width, Height int       // pixels
	PerPixel      sky.Angle // that one of its pixels covers, as it says; 0 when it does not
	Mosaic        Mosaic    // of a raw frame of a colour chip, where the header says so
}

// Star is one star of a frame.
type Star struct {
	X, Y       float64   // flux-weighted centroid, pixels
	Flux       float64   // ADU above the background
	Peak       float64   // brightest pixel above the background, ADU
	HFD        float64   // half-flux diameter, pixels
	Elongation float64   // long axis over short axis of the second moments, ≥ 1
	Direction  sky.Angle // of the long axis, from +X towards +Y, [0°, 180°)
	Noise      float64   // what a star of no flux measures in the same pixels, ADU, one σ
	Saturated  bool      // a pixel of it is at the top of the scale
}

// Measured is what one light shows.
type Measured struct {
	Background float64   // median of the sky, ADU
	Noise      float64   // of one pixel of the sky, ADU, one σ
	Count      int       // stars found, those that Stars leaves out included
	Stars      []Star    // the brightest, brightest first
	HFD        float64   // median of the unsaturated stars, pixels; 0 when there is none
	Elongation float64   // median, ≥ 1; 0 when there is none
	Direction  sky.Angle // of the mean elongation, from +X towards +Y, [0°, 180°)
	// Ninths are the median half-flux diameters in the ninths of the frame, row by row in the order of the file, pixels;
	// 0 where too few stars tell.
	Ninths    [9]float64
	Saturated float64  // share of the pixels that are at the top of the scale
	Full      int      // stars that have such a pixel, of Count
	Colours   []Colour // R, G and B of a colour chip; nil of any other
}
