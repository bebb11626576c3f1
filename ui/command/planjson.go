package command

import (
	"io"
	"math"
	"time"

	"duskhand/plan"
	"duskhand/plan/choose"
	"duskhand/plan/light"
	"duskhand/plan/worth"
	"duskhand/sky"
	"duskhand/sky/words"
)

// writePlanJSON writes the night's plan as one JSON document.
func writePlanJSON(to io.Writer, p planned) error {
	return writeJSON(to, documentOf(p))
}

func documentOf(p planned) document {
	night, k := p.night, p.night.Kit
	d := document{
		Example: k.Example, Kit: textOrNull(p.path), Date: night.Date.String(), Night: spanOf(night.Span),
		Site: siteJSON{
			Name: k.Site.Name, Lat: rounded(k.Site.Place.Latitude, 4), Lon: rounded(k.Site.Place.Longitude, 4),
			Elevation: k.Site.Place.ElevationMetres, Zone: k.Site.Zone.String(),
		},
		Axis: axisJSON{
			Tilt: rounded(k.Axis.Tilt, 1), Toward: rounded(k.Axis.Toward.Wrapped(), 1), Uncertainty: rounded(k.Axis.Uncertainty, 1),
		},
		Sun: sunOf(night.Twilight), Moon: moonOf(night),
		Dark: []spanJSON{}, DarkS: seconds(lengthOf(night.Dark)), Divided: p.divided != nil, Targets: []targetJSON{},
	}
	d.darknessOf(night)
	for _, dark := range night.Dark {
		d.Dark = append(d.Dark, spanOf(dark))
	}
	local := words.WallOf(night.Span.From, night.Span.To, time.UTC)
	for _, t := range p.targets {
		d.Targets = append(d.Targets, targetOf(p, t, local))
	}
	d.Calibrations, d.Cables, d.Supplies = calibrationsJSON(p), cablesJSON(p), suppliesOf(p)
	return d
}

func moonOf(night *plan.Night) moonJSON {
	moon := moonAtMidnight(night)
	return moonJSON{Rise: stamp(night.Moonrise), Set: stamp(night.Moonset), Lit: thousandths(moon.Illuminated),
		Mag: hundredths(light.MoonMagnitude(light.PhaseAngle(moon)))}
}

func sunOf(w sky.Twilight) sunJSON {
	return sunJSON{
		Sunset: stamp(w.Sunset), CivilDusk: stamp(w.CivilDusk), NauticalDusk: stamp(w.NauticalDusk), AstronomicalDusk: stamp(w.AstronomicalDusk),
		AstronomicalDawn: stamp(w.AstronomicalDawn), NauticalDawn: stamp(w.NauticalDawn), CivilDawn: stamp(w.CivilDawn), Sunrise: stamp(w.Sunrise),
	}
}

func targetOf(p planned, t plannedTarget, local words.Wall) targetJSON {
	j := targetJSON{
		Name: t.target.Name, ID: textOrNull(t.target.Object.ID),
		RA: rounded(t.target.Star.Place.RA, 4), Dec: rounded(t.target.Star.Place.Dec, 4),
		Windows: []windowJSON{}, NoRun: textOrNull(whyNoRuns(p.night, t, local)), Moon: moonOnOf(p.moons.MoonOn(t.target, t.runs.Windows)),
		Unsuited: unsuitedOf(p.moons.Unsuited(t.target)), Runs: []runJSON{}, Rewinds: []rewindJSON{}, Waits: idlesOf(t.runs.Waits), Gaps: idlesOf(t.runs.Gaps), Price: seconds(t.price.Exact),
		Usable: seconds(t.runs.Usable()), Exposed: seconds(t.runs.Exposed()),
	}
	for _, w := range t.runs.Windows {
		j.Windows = append(j.Windows, windowOf(t.course, w))
	}
	for _, run := range t.runs.Runs {
		j.Runs = append(j.Runs, runOf(t.course, run))
	}
	for _, r := range t.runs.Rewinds {
		j.Rewinds = append(j.Rewinds, rewindJSON{spanOf(r.Span), seconds(r.Length()), seconds(r.Turns), rounded(r.FromAngle, 1), rounded(r.ToAngle, 1)})
	}
	for i, filter := range t.course.Kit.Subs.Filters {
		if filter.Count > 0 {
			j.Subs = append(j.Subs, subsJSON{filter.Name, filter.Exposure.Seconds(), t.runs.After.Taken()[i], filter.Count})
		}
	}
	j.Order = orderOf(worth.Parts(p.night, t.course, t.runs))
	if dark := lengthOf(t.course.Dark); dark > 0 {
		share := math.Round(1000*float64(t.runs.Exposed())/float64(dark)) / 1000
		j.ExposedShare = &share
	}
	return j
}

func orderOf(parts []worth.Part) []orderJSON {
	all := []orderJSON{}
	for _, p := range parts {
		j := orderJSON{spanJSON: spanOf(p.Span), Filter: p.Filter, Count: p.Count, Worth: thousandths(p.Worth)}
		if why := orderWhys[p.Why]; why != "" {
			at := instant(p.At)
			j.Why, j.At = &why, &at
		}
		all = append(all, j)
	}
	return all
}

var orderWhys = map[worth.Why]string{worth.UntilMoonset: "until-moonset", worth.UntilMoonrise: "until-moonrise", worth.WhileHigh: "highest"}

func unsuitedOf(filters []choose.Through) []unsuitJSON {
	all := []unsuitJSON{}
	for _, f := range filters {
		all = append(all, unsuitJSON{f.Filter, thousandths(f.Suits)})
	}
	return all
}

func idlesOf(idles []plan.Idle) []idleJSON {
	all := []idleJSON{}
	for _, i := range idles {
		all = append(all, idleJSON{spanOf(i.Span), i.Why.Words(i.Bound)})
	}
	return all
}

func windowOf(course *plan.Course, w plan.Window) windowJSON {
	var ceiling *boundsJSON
	if c := w.Ceiling; c.Early.OK {
		ceiling = &boundsJSON{At: stamp(c.At), Early: stamp(c.Early), Late: stamp(c.Late)}
	}
	return windowJSON{
		spanJSON: spanOf(w.Span), OpensAfter: w.OpensAfter.Text(), ClosesBefore: w.ClosesBefore.Text(),
		OpensBehind: textOrNull(obstructionName(course, w.OpensAfter, w.From)), ClosesBehind: textOrNull(obstructionName(course, w.ClosesBefore, w.To)),
		Ceiling: ceiling,
	}
}

func runOf(course *plan.Course, run plan.Run) runJSON {
	j := runJSON{
		spanJSON: spanOf(run.Span), Limit: limitOf(run.Limit), StartAngle: rounded(run.StartAngle, 1), EndAngle: rounded(run.EndAngle, 1),
		Camera: rounded(rounded10(course.OfJ2000(run.CameraAngle)), 1), Reversals: []string{}, Subs: []countJSON{}, Exposed: seconds(run.Exposed),
	}
	for _, t := range run.Reversals {
		j.Reversals = append(j.Reversals, instant(t))
	}
	for _, c := range run.Counts {
		j.Subs = append(j.Subs, countJSON{c.Filter, c.Count})
	}
	return j
}

func limitOf(l plan.Limit) limitJSON {
	return limitJSON{Side: l.Side.String(), At: stamp(l.At), Early: stamp(l.Early), Late: stamp(l.Late)}
}

func spanOf(s plan.Span) spanJSON { return spanJSON{instant(s.From), instant(s.To)} }

// instant prints UTC to the second.
func instant(t time.Time) string { return t.UTC().Round(time.Second).Format(time.RFC3339) }

func stamp(e sky.Event) *string {
	if !e.OK {
		return nil
	}
	text := instant(e.At)
	return &text
}

func textOrNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

func seconds(d time.Duration) int64 { return int64(d.Round(time.Second) / time.Second) }

// rounded returns degrees with as many decimals as are known.
func rounded(a sky.Angle, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	return math.Round(a.Degrees()*scale)/scale + 0 // no minus before zero
}

// rounded10 keeps a position angle of 359.97° from being printed as 360.0°.
func rounded10(a sky.Angle) sky.Angle {
	return sky.Angle(math.Round(a.Degrees()*10) / 10 * float64(sky.Degree)).Wrapped()
}
