// Package framing answers where the chip stands on the sky: what it sees at which camera angle, how the
// mount must be nudged to put the object elsewhere on it, which camera angles the derotator can give, what
// all runs of a night share, what trails without derotation, whether there is a guide star, and where the
// panels of a mosaic lie.
//
// Frame: J2000 (ICRF) for everything on the sky, the axes of the chip for everything on the chip: x right
// and y up as the picture shows them, in pixels from its middle. Camera angles on the sky are position
// angles in J2000; the plan's are of date, and SinceJ2000 is the difference.
// Everything is a pure function of kit, course and time.
package framing
