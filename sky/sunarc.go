package sky

import "time"

// sunArc is the Sun's direction over a day or so: the polynomial through four exact directions.
//
// The Sun goes 0.0172 rad a day nearly evenly, so that over a day the polynomial leaves 1e-4 seconds of arc,
// and costs a fortieth of the series.
type sunArc struct {
	frame *Frame
	from  time.Time
	step  float64 // seconds between the nodes
	nodes [4]Direction
}

func (f *Frame) sunArc(from, to time.Time) *sunArc {
	a := &sunArc{frame: f, from: from, step: to.Sub(from).Seconds() / 3}
	for i := range a.nodes {
		a.nodes[i], _ = f.sunOfDate(from.Add(time.Duration(float64(i) * a.step * float64(time.Second))))
	}
	return a
}

// altitude returns that of the Sun's centre, as Frame.Sun has it. Lagrange's formula on the nodes 0, 1, 2, 3.
func (a *sunArc) altitude(t time.Time) Angle {
	x := t.Sub(a.from).Seconds() / a.step
	u, v, w := x-1, x-2, x-3
	d := a.nodes[0].scaled(-u*v*w/6).Plus(x*v*w/2, a.nodes[1]).Plus(-x*u*w/2, a.nodes[2]).Plus(x*u*v/6, a.nodes[3])
	return a.frame.topocentric(d, t.Sub(a.frame.middle).Seconds()).Altitude()
}
