package sky

// ProperMotion is a star's own motion per Julian year: RA along the parallel, that is with cos δ
// included, as catalogues give it; Dec north +.
type ProperMotion struct{ RA, Dec Angle }

// MilliarcsecondPerYear is the usual unit of ProperMotion's two parts.
const MilliarcsecondPerYear = Arcsecond / 1000

// Star is a point fixed in the sky but for its proper motion: its ICRF place at epoch J2000.0 and its
// motion from there. A deep-sky object is one without motion. Parallax is left out: at most 0.77″ of
// annual swing, for α Centauri, and under 0.1″ for all but a few dozen of the stars.
type Star struct {
	Place  J2000
	Motion ProperMotion
}
