package facts

import (
	"time"

	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// NewOptics is what the answers about telescope, camera and derotator come to while a kit is being made.
// What is not known yet is 0.
type NewOptics struct {
	ScaleArcsecPerPixel float64
	Width, Height       sky.Angle // of the field
	FocalRatio, ZoneUM  float64   // the critical focus zone in green light
	Travel              sky.Angle
}

// NewOpticsOf returns it as far as the sketch has the answers.
func NewOpticsOf(s kit.Sketch) (o NewOptics) {
	const aperture, length, pixel = "optics.aperture_mm", "optics.focal_length_mm", "camera.pixel_um"
	if s.Has(length, pixel) {
		o.ScaleArcsecPerPixel = s.Kit.ScaleArcsecPerPixel()
	}
	if s.Has(length, pixel, "camera.width_px", "camera.height_px") {
		o.Width, o.Height = s.Kit.Field()
	}
	if s.Has(aperture, length) {
		o.FocalRatio = s.Kit.Optics.FocalLengthMM / s.Kit.Optics.ApertureMM
		o.ZoneUM = plan.MainTelescope(s.Kit.Optics).ZoneUM()
	}
	if s.Has("derotator.min_deg", "derotator.max_deg") {
		o.Travel = s.Kit.Derotator.Travel()
	}
	return o
}

// NewNightQuestion is what tonight depends on while a kit is being made. HasSite and HasRun tell what is
// known of it. Equal questions have equal answers.
type NewNightQuestion struct {
	HasSite, HasRun bool
	Date            plan.Date
	Place           sky.Site
	DUT1            time.Duration
	Name            string
	Target          sky.Star
	Derotator       kit.Derotator
	Mount           kit.Mount
	Axis            kit.Axis
}

// NewNightFrom returns the question that the sketch asks for the night of an instant.
func NewNightFrom(s kit.Sketch, now time.Time) (q NewNightQuestion) {
	q.HasSite = s.Has("site.latitude", "site.longitude")
	if !q.HasSite {
		return NewNightQuestion{}
	}
	q.Place, q.Date = s.Kit.Site.Place, plan.DateOf(s.Kit.Site.Place, now)
	_, floor := s.Fault("mount.floor_deg")
	_, ceiling := s.Fault("mount.ceiling_deg")
	q.HasRun = s.Has("derotator.min_deg", "derotator.max_deg", "derotator.stops", "derotator.largest_rate_deg_per_h", "target.name") && !floor && !ceiling
	if q.HasRun {
		q.Name, q.Target = s.Kit.Targets[0].Name, s.Kit.Targets[0].Star
		q.Derotator, q.Mount, q.Axis = s.Kit.Derotator, s.Kit.Mount, s.Kit.Axis
	}
	return q
}

// NewNight is tonight for a kit that is being made: when it is dark, and the longest run that the target
// allows in one piece of the derotator's travel. Usable is how long the target can be used at all.
type NewNight struct {
	Dark    []plan.Span
	Usable  time.Duration
	Longest plan.Span // of no length if there is none
}

// longestStep is how finely the start of the longest run is looked for.
const longestStep = 10 * time.Minute

// Answer computes the night; it takes some tens of milliseconds.
func (q NewNightQuestion) Answer() (n NewNight) {
	if !q.HasSite {
		return n
	}
	target := kit.Target{Name: q.Name, Star: q.Target}
	night := plan.NewNight(kit.Kit{Site: kit.Site{Place: q.Place, DUT1: q.DUT1, Zone: time.UTC}, Derotator: q.Derotator, Mount: q.Mount,
		Axis: q.Axis, Horizon: kit.NewHorizon(nil), Targets: []kit.Target{target}}, q.Date)
	n.Dark = night.Dark
	if !q.HasRun {
		return n
	}
	course := night.Course(target, q.Axis)
	for _, window := range course.Windows() {
		n.Usable += window.Length()
		for from := window.From; window.To.Sub(from) > n.Longest.Length(); from = from.Add(longestStep) {
			if until := course.PlannedRun(from, window.To).Until; until.Sub(from) > n.Longest.Length() {
				n.Longest = plan.Span{From: from, To: until}
			}
		}
	}
	return n
}
