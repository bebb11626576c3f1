package supplies

import (
	"math"
	"slices"
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Power is what the battery gives through a stretch of time, full at its start. With Lacks named, keys of the
// kit are missing: NeededWh still counts the loads that are there, and the rest is nothing.
type Power struct {
	Span     plan.Span
	NeededWh float64
	UsableWh float64
	// Empty is when the usable part runs out, not OK if it lasts; LeftShare is what is left of it at the end,
	// 0 to 1.
	Empty     sky.Event
	LeftShare float64
	Lacks     []string
	loads     []kit.Load
}

// NightOf returns the stretch that the battery is for, sunset to sunrise; all 24 h where the Sun stays down. ok
// is false where it stays up.
func NightOf(n *plan.Night) (span plan.Span, ok bool) {
	sunset, sunrise := n.Twilight.Sunset, n.Twilight.Sunrise
	if !sunset.OK && !sunrise.OK {
		return n.Span, n.Frame.Sun(n.Span.From).Altitude < sky.SunAtHorizon
	}
	span = n.Span
	if sunset.OK {
		span.From = sunset.At
	}
	if sunrise.OK {
		span.To = sunrise.At
	}
	return span, span.From.Before(span.To)
}

// PowerThrough returns what the kit's battery gives through a stretch of time. A load that lasts for some hours
// is on from the beginning.
//
// Source: the project's handbook, section 11: Σ watts · hours against the usable watt-hours.
func PowerThrough(p kit.Power, span plan.Span) Power {
	power := Power{Span: span, loads: p.Loads}
	power.NeededWh = power.takenWhBy(span.To)
	if p.BatteryWh == 0 {
		power.Lacks = append(power.Lacks, "power.battery_wh")
	}
	if p.UsableShare == 0 {
		power.Lacks = append(power.Lacks, "power.usable_share")
	}
	if len(p.Loads) == 0 {
		power.Lacks = append(power.Lacks, "power.load")
	}
	if len(power.Lacks) > 0 {
		return power
	}
	power.UsableWh = p.BatteryWh * p.UsableShare
	power.LeftShare = math.Max(0, 1-power.NeededWh/power.UsableWh)
	power.Empty = power.empty()
	return power
}

// onFor returns how long a load is on by an instant of the span.
func (p Power) onFor(load kit.Load, t time.Time) time.Duration {
	on := max(0, t.Sub(p.Span.From))
	if load.Lasts > 0 {
		on = min(on, load.Lasts)
	}
	return on
}

// takenWhBy returns what the loads have drawn by an instant of the span.
func (p Power) takenWhBy(t time.Time) (wattHours float64) {
	for _, load := range p.loads {
		wattHours += load.Watts * p.onFor(load, t).Hours()
	}
	return wattHours
}

// LeftShareAt returns which share of the usable part is left at an instant of the span, 0 to 1; 0 with Lacks.
func (p Power) LeftShareAt(t time.Time) float64 {
	if len(p.Lacks) > 0 {
		return 0
	}
	return math.Max(0, 1-p.takenWhBy(t)/p.UsableWh)
}

// empty goes from one switching off to the next; between them the draw is constant.
func (p Power) empty() sky.Event {
	ends := []time.Time{p.Span.To}
	for _, load := range p.loads {
		if end := p.Span.From.Add(load.Lasts); load.Lasts > 0 && end.Before(p.Span.To) {
			ends = append(ends, end)
		}
	}
	slices.SortFunc(ends, time.Time.Compare)
	from := p.Span.From
	for _, to := range ends {
		before, after := p.takenWhBy(from), p.takenWhBy(to)
		if after > p.UsableWh {
			share := (p.UsableWh - before) / (after - before)
			return sky.Event{At: from.Add(time.Duration(share * float64(to.Sub(from)))), OK: true}
		}
		from = to
	}
	return sky.Event{}
}

// Greedy returns the load that takes the most through the span and what it takes; ok is false without loads.
func (p Power) Greedy() (load kit.Load, wattHours float64, ok bool) {
	for _, each := range p.loads {
		if wh := each.Watts * p.onFor(each, p.Span.To).Hours(); !ok || wh > wattHours {
			load, wattHours, ok = each, wh, true
		}
	}
	return load, wattHours, ok
}
