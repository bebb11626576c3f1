package facts

import (
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/exposure"
	"duskhand/plan/kit"
)

// SubLengths is how long the subs of a target should be.
type SubLengths struct {
	Target  kit.Target
	At      time.Time // when the shutter opens: now, or when the target can be used and guiding has settled
	OK      bool      // false when it can't be used any more this night
	Filters []exposure.Advice
}

// SubLengthsOf advises on a target at an instant. It takes about a millisecond.
func (r Run) SubLengthsOf(target kit.Target) SubLengths { return r.SubLengthsFor(target, nil, 0) }

// SubLengthsFor is SubLengthsOf for a star that must not burn out, by its V magnitude, and a wanted signal to
// noise; nil and 0 for none.
func (r Run) SubLengthsFor(target kit.Target, star *float64, signalToNoise float64) SubLengths {
	course, windows := r.Course, r.Windows
	if target.Name != r.Target.Name {
		course = r.CourseOf(target)
		windows = course.Windows()
	}
	s := SubLengths{Target: target}
	w, ok := plan.WindowFor(windows, r.Now)
	if !ok {
		return s
	}
	moment := exposure.Moment{At: later(r.Now, w.From.Add(r.Kit.Subs.Settle)), Until: w.To, Star: star, SignalToNoise: signalToNoise}
	switch {
	case r.Anchor != nil && target.Name == r.Target.Name:
		angle := r.Held(r.Course.Angle(*r.Anchor, moment.At))
		moment.Reading = &angle
	case r.Anchor == nil:
		moment.Reading = r.Log.Parked
	}
	s.At, s.OK, s.Filters = moment.At, true, exposure.Advise(r.Night, course, moment)
	return s
}

// Lacks returns the keys of the kit that would complete the advice, each once.
func (s SubLengths) Lacks() (keys []string) {
	for _, a := range s.Filters {
		for _, key := range a.Lacks() {
			if !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
		}
	}
	return keys
}
