package stage

import (
	"math"
	"time"

	"duskhand/plan"
	"duskhand/sky"
)

// Kind is what the stage did in a run.
type Kind string

// The kinds. Slipped: it turned once between two lights and follows again. Sticks: it stands since then. Backwards:
// it turns the wrong way. Creeps: the field turns slowly all the time, as for an axis that is not quite where the
// mount has it. Turned: it turned, and the lights do not tell yet in which of these ways.
const (
	TooFew    Kind = "too few"
	Holds     Kind = "holds"
	Slipped   Kind = "slipped"
	Sticks    Kind = "sticks"
	Backwards Kind = "backwards"
	Creeps    Kind = "creeps"
	Turned    Kind = "turned"
)

// Finding is what the lights of a run show together, relative to its first.
type Finding struct {
	Kind     Kind
	Run      int       // of the night
	Lights   int       // that it rests on
	After    int       // of these, how many came after what happened
	From, To time.Time // the middles of the lights between which it happened or began
	// By is by how much the camera has turned on the sky, positive through east: at once where it slipped, else from
	// From to the last light. Error is one σ.
	By, Error sky.Angle
}

// The bounds of what counts; choices of ours. A pixel at the corner of an ordinary chip is a sixtieth of a degree.
const (
	leastTurned = 0.02 * sky.Degree
	jitter      = 0.004 * sky.Degree // of an honest stage, from light to light
	sigmas      = 5.0
	clearly     = 9.0 // by which the sum of squares has to be less for one kind to be told from another
)

// Follow returns what the stage did in the run of lights, in their order, by how the camera angle went and by how
// the field turned meanwhile. What happened last counts; after a slip the lights are followed anew.
//
// Own derivation: the camera angle of a stage that follows stands still. With χ the field angle, one that stands from
// an instant on lets it grow as χ does, one that turns backwards as 2χ, and a slip makes a step of it. Each is
// fitted with the instant that suits it best, and the least sum of squares tells.
func Follow(lights []Seen, course *plan.Course) Finding {
	f := Finding{Kind: TooFew, Lights: len(lights), Run: -1}
	if len(lights) > 0 {
		f.Run = lights[len(lights)-1].Run
	}
	if len(lights) < 2 {
		return f
	}
	r := newRun(lights, course)
	found := r.best()
	if found.kind == Holds {
		f.Kind = Holds
		return f
	}
	f.Kind, f.After = found.kind, len(lights)-found.first
	f.From, f.To = lights[found.first-1].At, lights[found.first].At
	f.By, f.Error = sky.Angle(found.by), sky.Angle(r.errorOf(found))
	if found.kind == Slipped && f.After >= fewestAfterSlip {
		if later := Follow(lights[found.first:], course); later.Kind != Holds && later.Kind != TooFew {
			later.Lights = len(lights)
			return later
		}
	}
	return f
}

// fewestAfterSlip is how many lights after a slip can show something else.
const fewestAfterSlip = 3

// run is the lights of a run as the fit needs them: camera angles and χ from the first, radians, and hours.
type run struct {
	camera, chi, weight, hours []float64
}

func newRun(lights []Seen, course *plan.Course) run {
	var r run
	first, chi := lights[0].Camera, course.FieldAngle(lights[0].At)
	before := sky.Angle(0)
	for _, l := range lights {
		angle := before + (l.Camera - first - before).Signed()
		before = angle
		sigma := math.Hypot(float64(l.Error), float64(jitter))
		r.camera, r.hours = append(r.camera, float64(angle)), append(r.hours, l.At.Sub(lights[0].At).Hours())
		r.chi = append(r.chi, float64(course.FieldAngle(l.At)-chi))
		r.weight = append(r.weight, 1/(sigma*sigma))
	}
	return r
}

// explanation is a kind that has been fitted: what the sum of squares is, the first light after what happened, and
// by how much the camera turned.
type explanation struct {
	kind  Kind
	cost  float64
	first int
	by    float64
}

func (r run) errorOf(e explanation) float64 {
	before, after := 0.0, 0.0
	for i, w := range r.weight {
		if i < e.first {
			before += w
		} else {
			after += w
		}
	}
	return math.Sqrt(1/before + 1/after)
}

// best returns the explanation that fits best, Turned when two of different kinds fit about as well.
func (r run) best() explanation {
	n := len(r.camera)
	still := explanation{kind: Holds, cost: r.about(0, n, 0)}
	all := []explanation{r.creeping()}
	for first := 1; first < n; first++ {
		before := r.about(0, first, 0)
		for share, kind := range [...]Kind{Slipped, Sticks, Backwards} { // by how much of χ the camera turns since
			share := float64(share)
			e := explanation{kind: kind, first: first, cost: before + r.about(first, n, share), by: r.step(first, share)}
			if share > 0 && !r.continues(e, share) {
				continue
			}
			all = append(all, e)
		}
	}
	best := least(all)
	if best.kind == Creeps { // with a rate of its own it fits whatever turns evenly; one that needs none goes first
		if rest := least(all[1:]); rest.cost-best.cost < clearly {
			best = rest
		}
	}
	if math.Abs(best.by) < float64(leastTurned) || still.cost-best.cost < sigmas*sigmas {
		return still
	}
	for _, e := range all {
		if e.kind != best.kind && e.cost-best.cost < clearly && e.kind != Creeps {
			best.kind = Turned
		}
	}
	return best
}

// least returns the explanation with the least sum of squares.
func least(all []explanation) explanation {
	best := all[0]
	for _, e := range all[1:] {
		if e.cost < best.cost {
			best = e
		}
	}
	return best
}
