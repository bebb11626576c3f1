package advice

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/tally"
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/share"
	"duskhand/plan/worth"
)

// divided is a night divided among targets, and by what it was.
type divided struct {
	share.Share
	by   *checklist.Division
	axis kit.Axis
}

// divide divides the night as was said last, or else by the kit's shares. A division stands until another is
// said or the axis is known better: hand-over times that moved by themselves would be of no use.
func (t *Tonight) divide(earlier *Tonight) {
	by := t.Log.Divided
	if by == nil {
		by = byTheKit(t.Kit)
	}
	if by == nil || len(by.Parts) < 2 {
		return
	}
	if earlier != nil && earlier.shared != nil && t.Night == earlier.Night && sameDivision(by, earlier.shared.by) &&
		t.Axis == earlier.shared.axis && sameFramings(t, earlier) {
		t.shared = earlier.shared
		return
	}
	rules := share.UsualRules()
	rules.From, rules.Going, rules.At = by.At, by.Going, by.Angle
	if rules.From.IsZero() {
		rules.From = t.Night.Span.From
	}
	// A division that fails leaves the night undivided, as a kit of one target does.
	if s, err := share.Divide(t.Night, t.Axis, t.Spread, t.wishes(by), rules); err == nil && len(s.Stretches) > 0 {
		t.shared = &divided{s, by, t.Axis}
	}
}

// byTheKit is the division that the kit's shares make, from the beginning of the night on; nil if fewer than
// two targets have one.
func byTheKit(k kit.Kit) *checklist.Division {
	var d checklist.Division
	for _, target := range k.Targets {
		if target.Share > 0 {
			d.Parts = append(d.Parts, checklist.Part{Target: target.Name, Weight: target.Share})
		}
	}
	if len(d.Parts) < 2 {
		return nil
	}
	return &d
}

func (t *Tonight) wishes(by *checklist.Division) []share.Wish {
	var wishes []share.Wish
	for _, part := range by.Parts {
		target, known := t.targetNamed(part.Target)
		if !known {
			continue
		}
		sequence := plan.NewSequence(t.Kit.SubsFor(target))
		for filter, n := range part.Taken {
			sequence = sequence.Skip(filter, n)
		}
		wishes = append(wishes, share.Wish{Target: target, Weight: part.Weight, Subs: worth.With(sequence, t.Night, target)})
	}
	return wishes
}

// targetNamed returns a target by the name that the night has for it, framed as was said.
func (t *Tonight) targetNamed(name string) (kit.Target, bool) {
	target, err := t.Kit.FindTarget(name)
	if err != nil {
		return kit.Target{}, false
	}
	return tally.Chosen(t.Kit, t.Log, &checklist.Target{Name: target.Name, Star: target.Star}), true
}

func sameDivision(a, b *checklist.Division) bool {
	if !a.At.Equal(b.At) || len(a.Parts) != len(b.Parts) {
		return false
	}
	for i := range a.Parts {
		if a.Parts[i].Target != b.Parts[i].Target || a.Parts[i].Weight != b.Parts[i].Weight {
			return false
		}
	}
	return true
}

// sameFramings tells whether the targets of the night are wanted on the chip as before.
func sameFramings(t, earlier *Tonight) bool {
	if len(t.Log.Framings) != len(earlier.Log.Framings) {
		return false
	}
	for i, f := range t.Log.Framings {
		if g := earlier.Log.Framings[i]; f.Target != g.Target || f.Keep != g.Keep || (f.CameraAngle == nil) != (g.CameraAngle == nil) ||
			f.CameraAngle != nil && *f.CameraAngle != *g.CameraAngle {
			return false
		}
	}
	return true
}

// Shared returns the stretches of a divided night; nil if it is not divided.
func (t *Tonight) Shared() []share.Stretch {
	if t.shared == nil {
		return nil
	}
	return t.shared.Stretches
}

// HandOver returns the stretch that comes after the present target's, once it is over; ok is false while it is
// not, or if nothing comes. A target that was chosen outside its turn is left alone while it can be used, to the
// end of its own turn.
func (m Moment) HandOver() (next share.Stretch, ok bool) {
	if m.Now.Before(m.free) {
		return share.Stretch{}, false
	}
	for _, s := range m.Shared() {
		if s.Target.Name != m.Target.Name && m.Now.Before(s.To) && !m.Now.Before(s.From) {
			return s, true
		}
	}
	return share.Stretch{}, false
}

// Following returns the next target's stretch after the present one, whenever it begins.
func (m Moment) Following() (next share.Stretch, ok bool) {
	for _, s := range m.Shared() {
		if s.Target.Name != m.Target.Name && s.From.After(m.Now) {
			return s, true
		}
	}
	return share.Stretch{}, false
}

// Divide returns the action of dividing the rest of the night among the kit's targets: by their shares, or
// evenly if none has one. Those that have all their subs take no part.
func (m Moment) Divide() checklist.DivideNight {
	action := checklist.DivideNight{}
	if m.Stands != nil {
		action.Angle = angleOf(*m.Stands)
	}
	if m.Subs != nil {
		action.Going = m.Target.Name
	}
	some := byTheKit(m.Kit) != nil
	for _, target := range m.Kit.Targets {
		sequence := m.Tonight.subs.Sequence(target.Name)
		if target.Name == m.Target.Name {
			sequence = m.SequenceFromNow()
		}
		weight := target.Share
		if !some {
			weight = 1
		}
		if weight <= 0 || sequence.Done() || len(action.Parts) == share.Most {
			continue
		}
		part := checklist.Part{Target: target.Name, Weight: weight, Taken: map[string]int{}}
		for i, n := range sequence.Taken() {
			part.Taken[m.Kit.Subs.Filters[i].Name] = n
		}
		action.Parts = append(action.Parts, part)
	}
	return action
}

// laterRows are the planned runs of the targets whose turn comes later.
func (t *Tonight) laterRows(after time.Time) []RunRow {
	var rows []RunRow
	for _, s := range t.Shared() {
		if s.Target.Name == t.Target.Name || !s.To.After(after) {
			continue
		}
		for _, run := range s.Runs.Runs {
			if run.To.After(after) {
				rows = append(rows, RunRow{Span: run.Span, Target: s.Target.Name, Planned: true, StartAngle: run.StartAngle, EndAngle: run.EndAngle,
					CameraAngle: s.Course.OfJ2000(run.CameraAngle), Limit: run.Limit, Subs: len(run.Subs), Rewound: true})
			}
		}
	}
	return rows
}

// laterExposed is what the plan gives to the targets whose turn comes later.
func (t *Tonight) laterExposed(now time.Time) (total time.Duration) {
	for _, sub := range t.laterSubs(now) {
		total += sub.Exposure.Length()
	}
	return total
}

// turnAt returns the target whose turn it is.
func (d *divided) turnAt(now time.Time) kit.Target {
	if s, ok := d.At(now); ok {
		return s.Target
	}
	return d.Stretches[len(d.Stretches)-1].Target
}

// PlannedExposed is the exposure that the whole night was to give as it looked before anything happened, or
// when it was divided, with what had been taken by then.
func (t *Tonight) PlannedExposed() time.Duration {
	if t.shared == nil {
		return t.Dusk().Exposed()
	}
	total := t.shared.Exposed
	for _, wish := range t.wishes(t.shared.by) {
		total += wish.Subs.Exposed()
	}
	return total
}

// TakenExposed is the exposure that has been taken of the night's plan: of all targets if the night is divided.
func (m Moment) TakenExposed() time.Duration {
	total := m.SequenceFromNow().Exposed()
	if m.shared == nil {
		return total
	}
	for _, part := range m.shared.by.Parts {
		if part.Target != m.Target.Name {
			total += m.Tonight.subs.Sequence(part.Target).Exposed()
		}
	}
	return total
}
