package plan

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"

	"duskhand/sky"
)

// joint is the least-squares problem of FitJoint. Its unknowns are the tilt vector's parts, the zero, and then one
// for each stretch: the camera angle of one that tracks, the stage's of one that stands. Radians.
type joint struct {
	prior     [3]float64 // tilt east and north, zero
	weight    *mat.SymDense
	sense     float64
	sigma     float64 // of a reading
	stretches []observed
}

// observed is a stretch with where the target stood at each of its observations.
type observed struct {
	still    bool
	cameras  []sight
	readings []sight
}

type sight struct {
	pole, target sky.Direction
	angle, sigma float64
}

// The bounds of what placed lights tell of a stretch; choices of ours. A stage follows in steps, and the line of
// sight, the chip and the air bend by some seconds of arc, which is no noise that goes away with the root of the
// number.
const (
	leastCamera = 0.003 * sky.Degree
	mostCameras = 240 // of a stretch that stands still, four hours of one a minute: of more each second one is taken
	zeroUnknown = math.Pi
)

func jointOf(prior JointPrior, stretches []StageSpan, readingError sky.Angle) joint {
	east, north := tiltVector(prior.Axis)
	p := joint{prior: [3]float64{east, north, float64(prior.Zero)}, weight: prior.information(), sigma: float64(readingError), sense: 1}
	for _, s := range stretches {
		p = p.with(s)
	}
	return p
}

// information returns the inverse of the covariance of what was known before.
func (p JointPrior) information() *mat.SymDense {
	s := SpreadOf(p.Axis.Uncertainty)
	if p.Spread != nil {
		s = *p.Spread
	}
	a, b := math.Max(float64(s.East), float64(leastSpread)), math.Max(float64(s.North), float64(leastSpread))
	r := math.Max(-0.9999, math.Min(0.9999, s.Correlation))
	scale := 1 / (1 - r*r)
	w := mat.NewSymDense(3, []float64{scale / (a * a), -scale * r / (a * b), 0, 0, scale / (b * b), 0, 0, 0, 0})
	zero := zeroUnknown
	if p.ZeroError > 0 {
		zero = float64(p.ZeroError)
	}
	w.SetSym(2, 2, 1/(zero*zero))
	return w
}

// with returns the problem with another stretch.
func (p joint) with(s StageSpan) joint {
	if len(p.stretches) == 0 && s.Course != nil {
		p.sense = float64(s.Course.Kit.Derotator.Sense)
	}
	o := observed{still: s.Still}
	see := func(at time.Time, angle sky.Angle, sigma float64) sight {
		return sight{s.Course.frame.Pole(), s.Course.track.At(at), float64(angle), sigma}
	}
	cameras := s.Cameras
	if !s.Still && len(cameras) > 1 {
		cameras = []CameraSeen{meanCamera(cameras)}
	}
	every := (len(cameras) + mostCameras - 1) / mostCameras
	for i := 0; i < len(cameras); i += max(1, every) {
		c := cameras[i]
		o.cameras = append(o.cameras, see(c.At, c.Camera, float64(max(c.Error, leastCamera))))
	}
	for _, r := range s.Readings {
		o.readings = append(o.readings, see(r.At, r.Angle, p.sigma))
	}
	p.stretches = append(p.stretches[:len(p.stretches):len(p.stretches)], o)
	return p
}

// meanCamera returns what the lights of a stretch that tracks show together.
func meanCamera(cameras []CameraSeen) CameraSeen {
	mean := cameras[0]
	var sum, weight float64
	for _, c := range cameras {
		w := 1 / math.Pow(float64(max(c.Error, leastCamera)), 2)
		sum, weight = sum+w*float64((c.Camera-mean.Camera).Signed()), weight+w
	}
	mean.Camera += sky.Angle(sum / weight)
	mean.Error = max(sky.Angle(1/math.Sqrt(weight)), leastCamera)
	return mean
}

func (p joint) turned() joint {
	p.sense = -p.sense
	return p
}

func (p joint) unknowns() int { return 3 + len(p.stretches) }

func (p joint) observations() (n int) {
	for _, s := range p.stretches {
		n += len(s.cameras) + len(s.readings)
	}
	return n
}

// foretold returns what an observation of a stretch should be, but for whole turns.
func (p joint) foretold(s observed, unknown float64, x []float64, o sight, camera bool) float64 {
	if camera != s.still {
		return unknown // θ of one that tracks, m of one that stands
	}
	chi, _ := sky.FieldAngle(o.pole, o.target, leaning(x[0], x[1]))
	if camera {
		return float64(chi) + x[2] - p.sense*unknown
	}
	return p.sense * (float64(chi) + x[2] - unknown)
}

// slopes returns the derivatives of foretold by the tilt's parts, the zero and the stretch's unknown.
func (p joint) slopes(s observed, x []float64, o sight, camera bool) (d [4]float64) {
	if camera != s.still {
		return [4]float64{3: 1}
	}
	by, h := 1.0, float64(tiltStep)
	d[3] = -p.sense
	if !camera {
		by = p.sense
	}
	chi := func(east, north float64) sky.Angle {
		chi, _ := sky.FieldAngle(o.pole, o.target, leaning(east, north))
		return chi
	}
	d[0] = by * float64((chi(x[0]+h, x[1]) - chi(x[0]-h, x[1])).Signed()) / (2 * h)
	d[1] = by * float64((chi(x[0], x[1]+h) - chi(x[0], x[1]-h)).Signed()) / (2 * h)
	d[2] = by
	return d
}

// each calls a function for every observation of the problem.
func (p joint) each(x []float64, take func(stretch int, s observed, o sight, camera bool, residual float64)) {
	for k, s := range p.stretches {
		for _, o := range s.cameras {
			take(k, s, o, true, signed(o.angle-p.foretold(s, x[3+k], x, o, true)))
		}
		for _, o := range s.readings {
			take(k, s, o, false, signed(o.angle-p.foretold(s, x[3+k], x, o, false)))
		}
	}
}

func signed(radians float64) float64 { return float64(sky.Angle(radians).Signed()) }
