package hook

import (
	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
)

// Between returns what happened from one instant's facts to the next, in the order in which programs
// should hear of it. Before the first facts of a night, nil, nothing has happened: a program that is
// started in the middle of a night repeats nothing.
func Between(before *facts.Run, now facts.Run) []Happening {
	if before == nil || before.Log.Key != now.Log.Key {
		return nil
	}
	var events []string
	if len(now.Log.Runs) > len(before.Log.Runs) && now.Log.Anchor != nil {
		if now.Log.Anchor.Why == checklist.WhyRewound {
			events = append(events, kit.Rewound)
		}
		events = append(events, kit.RunStarted)
	}
	if near(now) && !near(*before) {
		events = append(events, kit.LimitNear)
	}
	if rewindDue(now) && !rewindDue(*before) {
		events = append(events, kit.RewindDue)
	}
	if now.Target.Name == before.Target.Name && done(now) && !done(*before) {
		events = append(events, kit.TargetDone)
	}
	var all []Happening
	for _, event := range events {
		all = append(all, happening(event, now))
	}
	return all
}

// near tells that a rewind is due soon, or now.
func near(r facts.Run) bool {
	return r.Call.Rewind() && r.Behind == 0 && r.Advice().Level >= advice.Warning
}

// rewindDue tells that the run's last sub is over, or its limit reached.
func rewindDue(r facts.Run) bool {
	a := r.Advice()
	return a.Why == advice.Limit && a.Level == advice.Calling
}

// done tells whether every filter has the subs that the kit wants.
func done(r facts.Run) bool {
	for _, count := range r.Counts {
		if count.Taken < count.Wanted {
			return false
		}
	}
	return len(r.Counts) > 0
}

func happening(event string, r facts.Run) Happening {
	h := Happening{Event: event, At: r.Now, Night: r.Night.Date.String(), Target: r.Target.Name, Run: len(r.Log.Runs), RewindBy: r.Call.By}
	if r.Anchor != nil {
		angle := r.Angle
		h.Angle = &angle
	}
	return h
}
