package advice

import "time"

// worthWaiting is by how much longer a run must be for a later start: who waits for less than a sub is cold for nothing.
func (m Moment) worthWaiting() time.Duration {
	sub, _, ok := m.Taken.Next(m.Now)
	if !ok {
		return mostWaiting
	}
	return min(mostWaiting, sub.Over.Sub(m.Now))
}

const mostWaiting = 3 * time.Minute

// Next is the run that the best schedule has next, and the rewind before it: after the run that goes on, or the
// first if none does. It is not OK when nothing more is worth it tonight.
func (m Moment) Next() Offer {
	o := Offer{From: m.Stands}
	runs := m.Ahead().Runs
	if len(runs) == 0 {
		return o
	}
	run := runs[0]
	o.OK, o.To, o.Lasts = true, run.StartAngle, run.Length()
	if o.From != nil {
		o.Takes = m.Course.RewindTime(*o.From, o.To)
	}
	earliest := later(m.Now.Add(o.Takes), m.WindowAfter(m.Now).From)
	o.Begins = later(earliest, run.From)
	from, _ := m.startAhead()
	if r, ok := m.Ahead().RewindBefore(0); ok && r.From.After(from.At.Add(time.Second)) {
		o.TurnAt = r.To.Add(-r.Turns)
	}
	o.Later = run.From.Sub(earliest) > m.Kit.Subs.BeforeTurn()+time.Minute
	if o.Later {
		if now := m.RewindNow(); now.OK && !now.Later && now.Lasts > o.Lasts-m.worthWaiting() {
			return now
		}
	}
	return o
}
