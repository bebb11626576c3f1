package say

import (
	"duskhand/checklist/advice"
	"duskhand/plan"
	"duskhand/ui/facts"
)

// About is what the line of what to do is about, whatever numbers stand in it: of two lines about the same, the later
// tells only how the time has gone on.
type About struct {
	Do    advice.Do
	Why   advice.Why
	Step  string          // whose sentence it is; "" for none
	Alert facts.AlertKind // whose words it is; "" for none
	What  string          // the target
	Ends  plan.Reason     // why the run that goes on will end

	Subs, Stopped, Behind, Soon, Until, Waits, Guided, Turns bool
}

// About returns what ToDo is about.
func (v Voice) About() About {
	r, a := v.Run, v.Advice
	about := About{Do: a.Do, Why: a.Why, What: a.Target, Ends: r.Call.For, Subs: r.Log.Subs != nil, Stopped: v.SubsStopped(),
		Behind: r.Behind > 0, Soon: a.Level == advice.Warning, Waits: a.From != nil, Guided: v.saysGuidingOff(), Turns: a.Angle != nil}
	if _, its := v.stepWords(); its {
		about.Step = a.Step
	}
	if v.SaysAlert() {
		about.Alert = v.Alerts[0].Kind
	}
	if a.By != nil {
		_, about.Until = v.lookAgain(v.Run.FirstOf(*a.By))
	}
	return about
}
