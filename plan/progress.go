package plan

import "time"

// Progress is where a sequence stands at an instant, if its subs follow one another as the kit says.
type Progress struct {
	Done     []Sub    // their exposure is over
	Now      Sub      // the sub under way, or between its exposure's end and Over
	Exposing bool     // the shutter of Now is open
	Waiting  bool     // the first sub has not begun, or all are taken: Now means nothing
	After    Sequence // the sequence after Done, and after Now if its exposure is over
}

// Progress follows the subs from the start of the first to now.
func (s Sequence) Progress(start, now time.Time) Progress {
	p := Progress{After: s, Waiting: true}
	for at := start; ; {
		sub, after, ok := p.After.Next(at)
		if !ok || now.Before(sub.Exposure.From) {
			return p
		}
		p.Now, p.Waiting = sub, false
		if now.Before(sub.Exposure.To) {
			p.Exposing = true
			return p
		}
		p.Done, p.After = append(p.Done, sub), after
		if now.Before(sub.Over) {
			return p
		}
		at, p.Waiting = sub.Over, true
	}
}
