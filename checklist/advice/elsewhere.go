package advice

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Elsewhere is another target of the kit that the rest of the night serves, once the one in hand wants no more.
type Elsewhere struct {
	Target  kit.Target
	Exposed time.Duration
	Until   time.Time // the end of its last run
	Start   sky.Angle // of the derotator for its first
}

// Elsewhere returns the target of the kit that would give the most exposure from now on apart from the one in hand. ok
// is false where none gives what a rewind is worth, or the night is divided: then its turns say what comes.
func (t *Tonight) Elsewhere() (best Elsewhere, ok bool) {
	best = t.elsewhere()
	return best, best.Exposed > 0
}

// findElsewhere plans the rest of the night for each target. It takes a schedule for each of the kit's.
func (t *Tonight) findElsewhere() (best Elsewhere) {
	if t.shared != nil {
		return best
	}
	stage := t.Log.Parked
	if t.Anchor != nil {
		angle := t.Held(t.Course.Angle(*t.Anchor, t.now))
		stage = &angle
	}
	for _, target := range t.Kit.Targets {
		sequence := t.subs.Sequence(target.Name)
		if target.Name == t.Target.Name || sequence.Done() {
			continue
		}
		s := t.kept.schedule(t.CourseOf(target), plan.Start{At: t.now, Stage: stage, Between: t.begun()}, sequence)
		if exposed := s.Exposed(); exposed > best.Exposed && exposed >= t.Kit.Subs.WorthARewind {
			best = Elsewhere{target, exposed, s.Runs[len(s.Runs)-1].To, s.Runs[0].StartAngle}
		}
	}
	return best
}
