package choose

import (
	"context"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/plan/scan"
	"duskhand/sky"
)

// YearNight is one night of a target's year.
type YearNight struct {
	Date        plan.Date
	Dark        time.Duration // dark enough for the target's filters, 0 where it never is
	Usable      time.Duration // of it the target can be used: the windows together
	MoonFree    time.Duration // of that the Moon is below the horizon
	Illuminated float64       // share of the Moon's disc that is lit at the middle of the night, 0 to 1
	Highest     sky.Angle     // of the target in its windows, airless; 0 when it has none
}

// MoonShare returns which share of the usable time the Moon is up, 0 to 1.
func (y YearNight) MoonShare() float64 {
	if y.Usable == 0 {
		return 0
	}
	return 1 - float64(y.MoonFree)/float64(y.Usable)
}

// Year is a target's nights, one after another.
type Year struct {
	Target kit.Target
	Kit    kit.Kit
	Nights []YearNight
}

// YearOf returns the nights of a target from a date on, a year's being 365.
//
// progress, which may be nil, is called after each night. Error: that of ctx, when it ends first.
// Error of the times: 10 s of the windows, 5 s of the Moon's rise and set, except where it grazes the
// horizon, by at most two minutes.
func YearOf(ctx context.Context, k kit.Kit, target kit.Target, axis kit.Axis, from plan.Date, nights int, progress func(done, total int)) (Year, error) {
	year := Year{Target: target, Kit: k, Nights: make([]YearNight, 0, nights)}
	for i := range nights {
		if err := ctx.Err(); err != nil {
			return Year{}, err
		}
		year.Nights = append(year.Nights, yearNight(plan.NewNight(k, dayAfter(from, i)), target, axis))
		if progress != nil {
			progress(i+1, nights)
		}
	}
	return year, nil
}

// dayAfter returns the date so many days later.
func dayAfter(d plan.Date, days int) plan.Date {
	t := time.Date(d.Year, d.Month, d.Day+days, 0, 0, 0, 0, time.UTC)
	return plan.Date{Year: t.Year(), Month: t.Month(), Day: t.Day()}
}

func yearNight(n *plan.Night, target kit.Target, axis kit.Axis) YearNight {
	s := scan.Of(n.Kit, n.Frame, n.DarkFor(target), axis, nil)
	path := s.Follow(target)
	y := YearNight{Date: n.Date, Dark: s.Darkness(), Usable: path.Usable()}
	y.Illuminated = n.Frame.Moon(n.Span.From.Add(n.Span.Length() / 2)).Illuminated
	for _, d := range path.Inside() {
		y.Highest = max(y.Highest, d.Horizontal().Altitude)
	}
	for _, free := range moonless(n) {
		for _, w := range path.Windows {
			y.MoonFree += free.Overlap(w.Span)
		}
	}
	return y
}

// moonless returns the stretches of a night, noon to noon, with the Moon's upper limb below the horizon,
// refraction included: from set to rise, by what plan.Night has found of them.
func moonless(n *plan.Night) []plan.Span {
	rise, set := n.Moonrise, n.Moonset
	switch {
	case !rise.OK && !set.OK:
		if moonUp(n.Frame.Moon(n.Span.From)) {
			return nil
		}
		return []plan.Span{n.Span}
	case !set.OK:
		return []plan.Span{{From: n.Span.From, To: rise.At}}
	case !rise.OK:
		return []plan.Span{{From: set.At, To: n.Span.To}}
	case set.At.Before(rise.At):
		return []plan.Span{{From: set.At, To: rise.At}}
	}
	return []plan.Span{{From: n.Span.From, To: rise.At}, {From: set.At, To: n.Span.To}}
}

// moonUp tells whether the Moon's upper limb is over the horizon, 34′ of refraction included, as for its
// rise and set.
func moonUp(m sky.Moon) bool { return m.Altitude+m.SemiDiameter()+34*sky.Arcminute > 0 }
