// Package tally reads a night's log with the kit beside it: which target and axis hold, and how many subs
// each run has given. Screens, record and scripts count with it, so that they agree.
//
// The journal says when exposures began and ended, not each sub; the subs follow one another as the kit
// says. So a count is as good as that, and is made with the kit as it is now.
package tally

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// Target returns what the night points at: as chosen last, or else the kit's first; and framed as was said
// last, or else as the kit has it.
func Target(k kit.Kit, log checklist.Night) kit.Target { return Chosen(k, log, log.Target) }

// Chosen returns a target of the log as the kit has it, or else with the log's place; the kit's first for
// nil.
func Chosen(k kit.Kit, log checklist.Night, target *checklist.Target) kit.Target {
	if target == nil {
		return framed(log, k.Targets[0])
	}
	for _, own := range k.Targets {
		if own.Name == target.Name {
			return framed(log, own)
		}
	}
	stranger := kit.Target{Name: target.Name, Star: target.Star}
	if object, err := catalog.Find(target.Name); err == nil && object.Star.Place.Direction().Separation(target.Star.Place.Direction()) < sky.Arcsecond {
		stranger.Object = object // its outline and its other names
	}
	return framed(log, stranger)
}

func framed(log checklist.Night, target kit.Target) kit.Target {
	if f, said := log.Framing(target.Name); said {
		target.CameraAngle, target.Keep, target.Middle = f.CameraAngle, f.Keep, f.Middle
	}
	return target
}

// Kit returns the kit as the night knows it better: with the camera's angle at the derotator's reading 0 as fitted.
func Kit(k kit.Kit, log checklist.Night) kit.Kit {
	if log.Zero != nil {
		k.Camera.AngleAtZero = log.Zero.Angle
	}
	return k
}

// Axis returns the mount's axis as measured last this night, or else as the kit has it.
func Axis(k kit.Kit, log checklist.Night) kit.Axis {
	if log.Axis == nil {
		return k.Axis
	}
	return kit.Axis{Tilt: log.Axis.Tilt, Toward: log.Axis.Toward, Uncertainty: log.Axis.Uncertainty}
}

// Subs is what the exposures of a night have come to: in stretches that have ended, and of the one going on
// what has arrived.
type Subs struct {
	Runs      [][]plan.Sub             // of each run of the log, in its order
	Unknown   []checklist.Subs         // stretches through filters that the kit does not have: not counted
	Sequences map[string]plan.Sequence // where each target's subs stand, by its name
	Early     []int                    // of each run, those of Runs that Apart left out: it was not dark
	targets   []string                 // of each run
	kit       kit.Kit
	log       checklist.Night
	resumed   time.Time // when the sub after the last arrived one of the stretch going on may start
}

// Count counts the subs of the night, each target's in a sequence of its own that starts afresh. current
// is the name of the target of runs that have none: the one that Target returns.
//
// Frames that have arrived are what was taken; where none has, in a stretch, the subs followed one another
// as the kit says.
func Count(k kit.Kit, log checklist.Night, current string) Subs {
	subs := Subs{Sequences: map[string]plan.Sequence{}, kit: k, log: log}
	byRun := arrivals(k, log, current)
	for i, run := range log.Runs {
		name := current
		if run.Target != nil {
			name = run.Target.Name
		}
		var arrived arrivedRun
		if byRun != nil {
			arrived = byRun[i]
		}
		inRun := subs.ended(name, run, &arrived.subs)
		if stretch, going := Going(log); going && run.Open {
			subs.Sequences[name] = subs.Sequence(name).InOrder(stretch.Order)
		}
		inRun = append(inRun, subs.take(name, arrived.subs)...)
		if stretch, going := Going(log); going && run.Open {
			if n := len(inRun); n > 0 && inRun[n-1].Over.After(arrived.next) && !arrived.next.IsZero() {
				arrived.next = inRun[n-1].Over // with its dither
			}
			if arrived.next.After(stretch.Start) {
				subs.resumed = arrived.next
			}
		}
		subs.Runs, subs.targets = append(subs.Runs, inRun), append(subs.targets, name)
	}
	return subs
}

// Watched tells that frames of the stretch going on have arrived: what has not come of it is not taken.
func (s Subs) Watched() bool { return !s.resumed.IsZero() }

// Follow follows the stretch that Going returned up to an instant. Where frames arrive, one sub may be over and
// on its way; when two should have come by the kit's times, the sequence has stopped, and nothing is exposed.
func (s Subs) Follow(sequence plan.Sequence, stretch checklist.Subs, now time.Time) plan.Progress {
	progress := sequence.Progress(stretch.Start, now)
	if s.Watched() && len(progress.Done) > 1 {
		return plan.Progress{After: sequence, Waiting: true}
	}
	return progress
}

// ended counts the stretches of a run that have ended. What arrived in one, or just before it was said to begin,
// is what was taken in it; each sub counts once.
func (s *Subs) ended(target string, run checklist.Run, arrived *came) (inRun []plan.Sub) {
	for _, stretch := range run.Subs {
		inRun = append(inRun, s.take(target, arrived.before(stretch.Start.Add(-slack)))...)
		inRun = append(inRun, s.count(target, stretch, arrived.before(stretch.End))...)
	}
	return inRun
}

// count counts a stretch that has ended.
func (s *Subs) count(target string, stretch checklist.Subs, arrived []plan.Sub) []plan.Sub {
	if len(arrived) > 0 {
		return s.take(target, arrived)
	}
	progress, known := s.Progress(target, stretch, stretch.End)
	if !known {
		s.Unknown = append(s.Unknown, stretch)
		return nil
	}
	sequence, _ := progress.After.Only("")
	s.Sequences[target] = sequence.InOrder(nil)
	return progress.Done
}

// take counts subs that have arrived.
func (s *Subs) take(target string, arrived []plan.Sub) []plan.Sub {
	if len(arrived) > 0 {
		sequence := s.Sequence(target)
		for i, sub := range arrived {
			if sequence = sequence.Take(sub.Filter.Name); sequence.Dithering() {
				arrived[i].Over = sub.Over.Add(s.kit.Subs.DitherSettle)
			}
		}
		s.Sequences[target] = sequence
	}
	return arrived
}

// Going is the package's Going for a night whose frames arrive: the stretch goes on from the last of them.
func (s Subs) Going() (stretch checklist.Subs, ok bool) {
	stretch, ok = Going(s.log)
	if ok && s.resumed.After(stretch.Start) {
		stretch.Start = s.resumed
	}
	return stretch, ok
}

// Sequence returns where the subs of a target stand.
func (s Subs) Sequence(target string) plan.Sequence {
	if sequence, begun := s.Sequences[target]; begun {
		return sequence
	}
	return plan.NewSequence(s.kit.SubsNamed(target))
}

// Progress follows a stretch that comes after those counted, up to an instant: of the filter that was
// named, or as the filters take turns. known is false when the kit does not have that filter: there is
// nothing to count by then.
func (s Subs) Progress(target string, stretch checklist.Subs, until time.Time) (progress plan.Progress, known bool) {
	sequence, known := s.Begin(target, stretch)
	if !known {
		return plan.Progress{After: s.Sequence(target), Waiting: true}, false
	}
	return sequence.Progress(stretch.Start, until), true
}

// Begin returns the sequence as it stands when a stretch begins: of the filter that was named, or in the order that
// held then, or as the filters take turns. known is false when the kit does not have that filter.
func (s Subs) Begin(target string, stretch checklist.Subs) (sequence plan.Sequence, known bool) {
	sequence, known = s.Sequence(target).Only(stretch.Filter)
	if s.Watched() { // what has come of it is off its order already
		return sequence, known
	}
	return sequence.InOrder(stretch.Order), known
}

// Going returns the exposures that are going on, as far as they lie in the open run: the part before its
// angle was known belongs to no run, here as after they have stopped. ok is false if none go on in a run.
func Going(log checklist.Night) (stretch checklist.Subs, ok bool) {
	run, open := log.OpenRun()
	if !open || log.Subs == nil {
		return checklist.Subs{}, false
	}
	stretch = *log.Subs
	if stretch.Start.Before(run.Start) {
		stretch.Start = run.Start
	}
	return stretch, true
}
