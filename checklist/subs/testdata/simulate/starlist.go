package simulate

import (
	"cmp"
	"math"
	"slices"

	"duskhand/checklist/subs"
	"duskhand/sky"
)

// fullScale is the largest value of a pixel.
const fullScale = 65535

// Stars returns the stars of a shot as they are, brightest first: all whose middle is on the chip, however
// faint.
func (f *Field) Stars(shot Shot) []subs.Star {
	var stars []subs.Star
	poses := f.poses(shot)
	for _, star := range f.stars {
		s := subs.Star{Elongation: 1, HFD: f.FWHM} // of a Gaussian half the light is inside the FWHM
		for _, p := range poses {
			at := f.at(star.at, p)
			s.X += at.x / float64(len(poses))
			s.Y += at.y / float64(len(poses))
		}
		if s.X < 0 || s.Y < 0 || s.X > float64(f.Sensor.Width-1) || s.Y > float64(f.Sensor.Height-1) {
			continue
		}
		f.expose(&s, star, shot, poses)
		stars = append(stars, s)
	}
	slices.SortStableFunc(stars, func(a, b subs.Star) int { return cmp.Compare(b.Flux, a.Flux) })
	return stars
}

// expose fills in what the light makes of a star.
func (f *Field) expose(s *subs.Star, star fieldStar, shot Shot, poses []pose) {
	n := len(poses)
	first, last := f.at(star.at, poses[0]), f.at(star.at, poses[n-1])
	trail := math.Hypot(last.x-first.x, last.y-first.y)
	if n > 1 {
		trail *= float64(n) / float64(n-1) // the poses are the middles of n parts
	}
	sigma := f.sigma()
	long := math.Hypot(sigma, trail/math.Sqrt(12)) // second moment of a line
	s.Elongation = long / sigma
	s.Direction = sky.Angle(math.Atan2(last.y-first.y, last.x-first.x))
	if s.Direction < 0 {
		s.Direction += 180 * sky.Degree
	}
	s.Flux = f.electrons(star.rate, shot) / f.ElectronsADU
	s.Peak = s.Flux / (2 * math.Pi * sigma * long)
	aperture := math.Pi * 2.25 * f.FWHM * f.FWHM // of radius 1.5 FWHM
	s.Noise = math.Sqrt(aperture*f.pixelVariance(shot)) / f.ElectronsADU
	s.Saturated = s.Peak+f.OffsetADU+f.SkyRate*shot.Exposure.Seconds()/f.ElectronsADU >= fullScale
}

// Seen returns the stars of a shot as a good measurement finds them: those over five times their noise, each
// off by what photons, sky and the camera make of it.
//
// Source of the error of a centroid: Thompson, Larson & Webb 2002, Biophysical Journal 82, 2775, eq. 17, and
// 0.03 pixels of seeing.
func (f *Field) Seen(shot Shot) []subs.Star {
	const seeing = 0.03
	random := f.random(shot, streamCentroids)
	var seen []subs.Star
	for _, s := range f.Stars(shot) {
		photons := s.Flux * f.ElectronsADU
		x, y, flux := random.NormFloat64(), random.NormFloat64(), random.NormFloat64()
		if s.Flux < 5*s.Noise {
			continue
		}
		v := f.sigma() * f.sigma()
		off := math.Sqrt((v+1.0/12)/photons + 8*math.Pi*v*v*f.pixelVariance(shot)/(photons*photons) + seeing*seeing)
		s.X, s.Y = s.X+off*x, s.Y+off*y
		s.Flux += flux * math.Hypot(s.Noise, math.Sqrt(photons)/f.ElectronsADU)
		seen = append(seen, s)
	}
	slices.SortStableFunc(seen, func(a, b subs.Star) int { return cmp.Compare(b.Flux, a.Flux) })
	return seen
}

// sigma returns the standard deviation of a Gaussian of the scene's FWHM, pixels.
func (s Scene) sigma() float64 { return s.FWHM / (2 * math.Sqrt(2*math.Ln2)) }

// electrons returns what a rate comes to in a shot.
func (s Scene) electrons(rate float64, shot Shot) float64 {
	return rate * shot.Exposure.Seconds() * (1 - shot.Cloud)
}

// pixelVariance returns that of a pixel of the sky, electrons².
func (s Scene) pixelVariance(shot Shot) float64 {
	return s.SkyRate*shot.Exposure.Seconds() + s.ReadNoise*s.ReadNoise
}
