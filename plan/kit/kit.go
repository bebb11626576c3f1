// Package kit is what the person brings to the night: site, mount, derotator, optics, camera, horizon,
// subs and targets, read from one TOML file.
//
// One table, fields, says for every key what it is, its unit, range, default and use. Decoding,
// checking, hints at misspelt keys, the commented file for a new kit, its questions and the reference
// are all made from that table. Nothing is guessed: a file is either right or refused with every fault
// in it.
package kit

import (
	"time"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Kit is one kit file, complete and checked.
type Kit struct {
	Site      Site
	Axis      Axis
	Derotator Derotator
	Mount     Mount
	Optics    Optics
	Camera    Camera
	Guide     Guide
	Stars     Stars
	Horizon   Horizon
	Subs      Subs
	Targets   []Target // in the order of the file, at least one
	Alarm     Alarm
	Watch     Watch
	Power     Power
	On        []OnEvent // in the order of the file
	Keys      Keys      // what its section [keys] gives
	Example   bool      // true only for the built-in example
}

// Site is where the mount stands. DUT1 is UT1 − UTC. SkyMagPerArcsec2 is the V brightness of the moonless
// sky overhead, ExtinctionMagPerAirmass what the air takes in V, SeeingArcsec the full width at half maximum
// of a star overhead: each 0 when the file is silent. DarkSun is the altitude of the Sun below which subs are taken,
// DarkSunLine that for targets taken through line filters alone.
type Site struct {
	Name                      string
	Place                     sky.Site
	Zone                      *time.Location
	PressureHPa, TemperatureC float64
	DUT1                      time.Duration

	SkyMagPerArcsec2, ExtinctionMagPerAirmass, SeeingArcsec float64

	DarkSun, DarkSunLine sky.Angle
}

// Axis is how the mount's azimuth axis leans: Tilt from the zenith, Toward that azimuth, known to
// within Uncertainty in any direction.
type Axis struct{ Tilt, Toward, Uncertainty sky.Angle }

// Derotator is the turning stage: its limits Min and Max as its own scale reads, whether a rewind may
// stop anywhere or at an end only, whether it tracks again by itself after one (Resumes), the fastest rotation it can follow, its speed when rewinding, the
// Sense (+1 or −1) in which its reading goes as the field angle grows, and the Margin that must be left
// before a limit.
type Derotator struct {
	Min, Max                 sky.Angle
	StopsAnywhere            bool
	Resumes                  bool
	LargestRate, RewindSpeed sky.Rate
	Sense                    int
	Margin                   time.Duration
}

// Travel returns the whole usable range of the derotator, above 0°.
func (d Derotator) Travel() sky.Angle { return d.Max - d.Min }

// Mount is the altitude-azimuth mount. Floor is the lowest altitude worth using and Ceiling the edge of
// the keyhole, both about the mount's own axis; LargestAzimuthRate is the fastest that it tracks in
// azimuth. CeilingStops tells that something is in the telescope's way above the ceiling, of which CeilingWarn ahead
// warns; else the mount only can't follow there. Frame is how long before the first sub the derotator may go on.
type Mount struct {
	Floor, Ceiling     sky.Angle
	LargestAzimuthRate sky.Rate
	CeilingStops       bool
	CeilingWarn, Frame time.Duration
	Cables             Cables
}

// Optics is the main telescope and the guide telescope, whose two lengths are 0 when there is none.
// TubeLengthMM is what carries the focus, the focal length if the file is silent; TubeExpansionPerK is by
// which share of itself it grows with each kelvin. ObstructionMM is the diameter of what stands in the middle
// of the aperture; Transmission the share of the light that comes through, 0 when the file is silent.
type Optics struct {
	Name                                string
	ApertureMM, FocalLengthMM           float64
	GuideApertureMM, GuideFocalLengthMM float64
	TubeMaterial                        string
	TubeLengthMM                        float64
	TubeExpansionPerK                   float64
	ObstructionMM, Transmission         float64
}

// Camera is the main camera. AngleAtZero is the angle of the chip's up from the mount's up when the
// derotator reads 0°, north through east. Mirrored pictures show east on the right when north is up. Noise,
// well and current are in electrons, of one pixel unbinned. What the file is silent about is 0, the set
// point nil.
type Camera struct {
	Name          string
	PixelUM       float64
	Width, Height int // pixels
	AngleAtZero   sky.Angle
	Mirrored      bool
	Axis          *PixelOffset // where the derotator's axis meets the chip; nil where the file does not say
	Colour        string       // the order of a colour chip's filters, as "RGGB"; "" of one without
	GainEPerADU   float64      // electrons that make one ADU, at the gain that is used; 0 where the file does not say

	QuantumEfficiency, ReadNoiseE, FullWellE, DarkCurrentEPerS float64
	SetPointC                                                  *float64
}

// Subs says how exposures follow one another. InARow subs of one filter come before the next filter;
// Overhead passes from the end of a sub to the start of the next; Settle from a start or rewind to the
// first sub; after every DitherEvery subs (0: never) DitherSettle is added. A rewind takes Loop beside its turning, for
// all that must be done around it, and is planned only if it gains more exposure than WorthARewind. ReadNoiseShare is
// by which share the read noise may raise the noise of a sub.
type Subs struct {
	Filters      []Filter // in the order of the file, at least one
	InARow       int
	Overhead     time.Duration
	Settle       time.Duration
	DitherEvery  int
	DitherSettle time.Duration
	Loop         time.Duration
	WorthARewind time.Duration

	Order        Order
	FilterChange time.Duration // what a change of filter takes beside the overhead
	Refocus      time.Duration // and what it takes more where the filters' focus differs
	WorthAChange time.Duration // the time under the best sky that a change must gain

	ReadNoiseShare float64
}

// BeforeTurn is what of a rewind's loop comes before the stage turns: subs and guiding off, temperature and focus.
func (s Subs) BeforeTurn() time.Duration { return s.Loop - s.AfterTurn() }

// AfterTurn is what of it comes after: the derotator seen to turn, the picture centred, guiding checked or calibrated
// and on. The stage tracks meanwhile. Half of the loop: common practice.
func (s Subs) AfterTurn() time.Duration { return s.Loop / 2 }

// Target is one object of the night. Object is the catalogue's entry, or the zero Object when the file
// gave coordinates of its own; Star holds the place in either case. CameraAngle is the position angle
// (J2000) that the chip's up is wanted at, nil if any will do; Middle is where the middle of the chip is
// wanted, from the object; Keep is which runs are to begin at the angle; Share is
// its weight when the night is divided, 0 if it takes no part; Filters are its own wishes, none for the kit's.
// Line is where the file names it.
type Target struct {
	Name        string
	Star        sky.Star
	Object      catalog.Object
	CameraAngle *sky.Angle
	Keep        KeepAngle
	Share       float64
	Middle      SkyOffset
	Filters     []TargetFilter
	Line        int
}

// Alarm is how a rewind is announced: Bell is "bell", "none" or "command"; Command is the program and
// its arguments; WarnBefore is how long ahead of the rewind the first warning comes, DawnBefore that before
// darkness ends; Notify asks for messages on the desktop too; Snooze is how long the snooze key lasts.
type Alarm struct {
	Bell       string
	Command    []string
	WarnBefore time.Duration
	Notify     bool
	Snooze     time.Duration
	DawnBefore time.Duration
}
