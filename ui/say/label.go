package say

import (
	"fmt"

	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/sky/words"
)

// Label is what the answer is. What a countdown counts to may need "until" before it, which its words begin with.
type Label struct {
	Words string
	Until bool
}

// Label says what the answer is, longest first. A countdown's begins with its unit.
func (v Voice) Label() (ways []string) {
	_, unit := words.Countdown(v.Answer().Until.Sub(v.Run.Now))
	for i, label := range v.Labels() {
		if i == 0 && label.Until {
			label.Words = unit + " " + label.Words
		}
		ways = append(ways, label.Words)
	}
	return ways
}

// Labels are the same without the unit.
func (v Voice) Labels() (ways []Label) {
	plain := v.plainLabel()
	for _, words := range plain {
		ways = append(ways, Label{Words: words})
	}
	if plain == nil {
		return v.countLabel()
	}
	return ways
}

// plainLabel is that of an answer that is a word; nil for a countdown's.
func (v Voice) plainLabel() []string {
	name := v.Run.Target.Name
	switch a := v.Advice; {
	case a.Do == advice.MoveAway:
		return []string{"something is in the telescope's way from " + v.at(*a.By) + " on", "in the way from " + v.at(*a.By)}
	case a.Do == advice.StopSubs:
		return v.stopLabel()
	case a.Do == advice.HandOver:
		return v.turnLabel()
	case v.Run.Behind > 0:
		return Behind(v.Run.Behind)
	case a.Do == advice.SayAngle:
		return []string{"the derotator is on, and nobody has said at which angle", "the derotator's angle is unknown"}
	case a.Do == advice.Rewind && a.Level == advice.Calling && v.Run.AtLimit():
		return v.atLimitLabel()
	case a.Do == advice.Rewind && a.Level == advice.Calling:
		limit := v.LimitWords()
		return []string{"now, before the limit at " + limit, "now; limit " + limit, "now; limit " + v.at(v.Run.Call.Limit.Early.At)}
	case a.Do == advice.Stow && len(v.Run.Windows) == 0:
		return v.WhyNone()
	case a.Do == advice.Stow && a.Why == advice.GoalReached:
		return []string{"all wanted subs of " + name + " are taken", "all subs are taken"}
	case a.Do == advice.Stow:
		last := v.Run.Windows[len(v.Run.Windows)-1]
		if v.Run.IsOver() {
			return []string{"the last window of " + name + " is over: " + last.ClosesBefore.Text(), "the last window is over"}
		}
		return []string{"nothing is left of the night for a run", "no run is left"}
	}
	return nil
}

func (v Voice) countLabel() []Label {
	r := v.Run
	switch {
	case v.runs():
		return v.callLabel()
	case r.Now.Before(r.Window.From) && r.Window.Length() > 0:
		at := v.from(r.Window.From)
		return []Label{{fmt.Sprintf("until %s can be used, at %s (%s until then)", r.Target.Name, at, r.Window.OpensAfter.Text()), true}, {"until it can be used, " + at, true}}
	case r.Log.DerotatorOn:
		return []Label{{"no run can begin now", false}, {"no run now", false}}
	}
	return []Label{{"the derotator is off", false}}
}

// callLabel says what comes at the end of a run that is going on.
func (v Voice) callLabel() []Label {
	c := v.Run.Call
	at := v.at(c.At)
	switch c.For {
	case plan.ForLimit:
		return []Label{{"until the rewind, at " + at, true}, {"until the rewind, " + at, true}, {"rewind " + at, false}}
	case plan.ForGoal:
		if taken, _, one := c.FilterTaken(); one {
			return []Label{{"until all wanted subs of " + taken + " are taken, at " + at, true}, {"until all of " + taken + " are taken, " + at, true}, {"all " + taken + " taken " + at, false}}
		}
		return []Label{{"until all wanted subs are taken, at " + at, true}, {"until all subs are taken, " + at, true}, {"all taken " + at, false}}
	}
	closes := v.at(c.Window.To)
	return []Label{{fmt.Sprintf("until the last sub is done, at %s; the window closes at %s (%s)", at, closes, c.Window.ClosesBefore.Text()), true},
		{fmt.Sprintf("until the last sub is done, %s (%s)", at, c.Window.ClosesBefore.Text()), true}, {"last sub done " + at, false}}
}

func (v Voice) stopLabel() []string {
	r, name := v.Run, v.Run.Target.Name
	switch v.Advice.Why {
	case advice.Limit:
		return v.atLimitLabel()
	case advice.FieldTurns:
		return []string{"the lights show that the field turns", "the field turns"}
	case advice.GoalReached:
		if taken, _, one := r.Call.FilterTaken(); one {
			return []string{"all wanted subs of " + name + " through " + taken + " are taken", "all of " + taken + " are taken"}
		}
		return []string{"all wanted subs of " + name + " are taken", "all subs are taken"}
	case advice.Twilight:
		return []string{"it is not dark until " + v.from(r.Call.Window.From) + ", and subs are being taken", "dark from " + v.from(r.Call.Window.From)}
	}
	if r.Unusable() {
		return []string{fmt.Sprintf("%s can't be used now (%s until %s), and subs are being taken", name, r.Call.Window.OpensAfter.Text(), v.from(r.Call.Window.From)), "not usable now"}
	}
	return []string{"the window has closed at " + v.at(r.Call.Window.To) + " (" + r.Call.Window.ClosesBefore.Text() + "), and subs are being taken", "the window has closed"}
}

func (v Voice) atLimitLabel() []string {
	return []string{"the derotator has reached its limit at " + v.at(v.Run.Call.Limit.At.At) + ": the field turns", "at the limit: the field turns"}
}

func (v Voice) turnLabel() []string {
	turn, ok := v.turn()
	if other, complete := v.Run.Elsewhere(); !ok && complete {
		name := other.Target.Name
		return []string{fmt.Sprintf("%s is complete: %s gives %s until %s", v.Run.Target.Name, name, words.Lasting(other.Exposed), v.at(other.Until)), name + " until " + v.at(other.Until), name}
	}
	if !ok {
		return []string{"hand-over"}
	}
	from, to, name := v.from(turn.Ready), v.at(turn.To), turn.Target.Name
	return []string{fmt.Sprintf("hand-over: %s is next, subs from %s to %s", name, from, to), fmt.Sprintf("%s, %s to %s", name, from, to), name}
}

// WhyNone says why the target can't be used tonight.
func (v Voice) WhyNone() []string {
	r := v.Run
	if len(r.Course.Dark) == 0 {
		return v.neverDark()
	}
	return []string{fmt.Sprintf("%s is not usable in the dark tonight: floor %s, horizon and keyhole leave nothing", r.Target.Name, words.Signed(r.Kit.Mount.Floor)),
		r.Target.Name + " is not usable tonight"}
}

// neverDark says how low the Sun comes, and what darkness of the kit's own would give.
func (v Voice) neverDark() []string {
	night := v.Run.Night
	ways := []string{"no darkness tonight: the Sun stays above " + words.Signed(v.Run.Kit.DarkSunFor(v.Run.Target)), "no darkness tonight"}
	at, lowest := night.Frame.SunLowest(night.Span.From)
	possible, ok := night.DarkestPossible()
	if lowest >= 0 || !ok {
		return ways
	}
	down, depth := words.Degrees(-lowest, 1), fmt.Sprintf("dark_sun_deg = %.0f", possible.Below.Degrees())
	return append([]string{
		fmt.Sprintf("no darkness: the Sun sinks %s at %s; site.%s would give %s", down, v.at(at), depth, words.Lasting(possible.Length())),
		fmt.Sprintf("no darkness: the Sun sinks %s; %s gives %s", down, depth, words.Lasting(possible.Length())),
	}, ways...)
}

// LimitWords gives the limit with its bounds: 00:31, early 00:27, late 00:36.
func (v Voice) LimitWords() string {
	l := v.Run.Call.Limit
	switch {
	case !l.Early.OK:
		return "none before the window closes"
	case !l.At.OK:
		return "after the window for the axis as known, early " + v.at(l.Early.At)
	case l.Early.At.Equal(l.At.At):
		return v.at(l.At.At)
	case !l.Late.OK:
		return fmt.Sprintf("%s, early %s, late after the window", v.at(l.At.At), v.at(l.Early.At))
	}
	return fmt.Sprintf("%s, early %s, late %s", v.at(l.At.At), v.at(l.Early.At), v.from(l.Late.At))
}
