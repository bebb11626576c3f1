package kit

import (
	"fmt"
	"time"

	"duskhand/sky"
	"duskhand/sky/words"
)

// check looks for values that are right one by one and contradict each other. A check whose fields are
// faulty themselves says nothing.
func (r *reader) check() {
	r.checkLimits()
	r.checkZone()
	r.checkDarkness()
	r.checkOptics()
	r.checkObstruction()
	r.checkField()
	r.checkGuide()
	r.checkCables()
	r.checkCameraAxis()
	r.checkStars()
	r.checkKnown()
	r.checkHorizon()
	r.checkFilters()
	r.checkTargets()
	r.checkAlarm()
}

// sound tells whether all the fields have values that a check can use.
func (r *reader) sound(paths ...string) bool {
	for _, path := range paths {
		if _, present := r.raw[path]; !present || r.faulty[path] {
			return false
		}
	}
	return true
}

// mention returns a field as another field's fault refers to it.
func (r *reader) mention(path string) string {
	switch line := r.lines.of(path); {
	case !r.given[path]:
		return fmt.Sprintf("%s = %s (the default)", path, shown(r.raw[path]))
	case line > 0:
		return fmt.Sprintf("%s = %s (line %d)", path, shown(r.raw[path]), line)
	default:
		return fmt.Sprintf("%s = %s", path, shown(r.raw[path]))
	}
}

// accuse faults the field at path for what it is beside another one.
func (r *reader) accuse(path, relation, other, remedy string) {
	own := "= " + shown(r.raw[path])
	if !r.given[path] {
		own += " (the default)"
	}
	r.fault(path, fmt.Sprintf("%s %s %s; %s", own, relation, r.mention(other), remedy))
}

func (r *reader) checkLimits() {
	const lower, upper = "derotator.min_deg", "derotator.max_deg"
	d, m := r.draft.kit.Derotator, r.draft.kit.Mount
	if r.sound(lower, upper) {
		switch {
		case d.Max < d.Min:
			r.accuse(upper, "is below", lower, "give the smaller limit first")
		case d.Max == d.Min:
			r.accuse(upper, "leaves no travel from", lower, "give the reading at the other limit")
		}
	}
	const floor, ceiling = "mount.floor_deg", "mount.ceiling_deg"
	if r.sound(floor, ceiling) && m.Floor >= m.Ceiling {
		r.accuse(floor, "is not below", ceiling, "leave some sky between floor and keyhole")
	}
}

// checkZone finds a longitude with the wrong sign, or a zone of another place. UTC is no place's zone and
// always right.
func (r *reader) checkZone() {
	s := r.draft.kit.Site
	if !r.sound("site.zone", "site.longitude") || s.Zone.String() == "UTC" || s.Zone.String() == "Etc/UTC" {
		return
	}
	if at, plausible := clockOfSun(s); !plausible {
		noon := words.Minute(time.Time{}.Add(s.NoonByClock(at)), time.UTC)
		r.accuse("site.zone", fmt.Sprintf("has noon at %s by its clock, %s from the Sun's time at", noon, words.Lasting(s.aheadOfSun(at))), "site.longitude",
			`east is positive, west is negative or W; or give the zone of the place, or "UTC"`)
	}
}

// NoonByClock returns when the mean Sun culminates at the site, by the clock of its zone at that time of the year:
// the time from midnight, 0 to 24 h.
func (s Site) NoonByClock(at time.Time) time.Duration {
	const day = 24 * time.Hour
	return (12*time.Hour + s.aheadOfSun(at) + 2*day).Round(time.Minute) % day
}

// aheadOfSun returns how far the site's clock is ahead of its mean Sun.
func (s Site) aheadOfSun(at time.Time) time.Duration {
	_, offsetSeconds := at.In(s.Zone).Zone()
	sun := time.Duration(s.Place.Longitude.Hours() * float64(time.Hour))
	return time.Duration(offsetSeconds)*time.Second - sun
}

// clockOfSun tells whether any place's clock is as far from its mean Sun as the site's, in winter or in summer, and
// returns the last instant that it looked at. On land that is at most 3.2 h, in the west of China; near the date line
// a day more or less, to within 2.6 h, in the Aleutians.
func clockOfSun(s Site) (at time.Time, plausible bool) {
	const allowed, allowedAcrossDateLine = 5 * time.Hour, 3 * time.Hour
	for _, month := range []time.Month{time.January, time.July} { // with and without daylight saving
		at = time.Date(2026, month, 1, 0, 0, 0, 0, time.UTC)
		off := s.aheadOfSun(at).Abs()
		plausible = plausible || off <= allowed || (off-24*time.Hour).Abs() <= allowedAcrossDateLine
	}
	return at, plausible
}

func (r *reader) checkOptics() {
	const fastest = 0.5 // focal ratio; in air no lens that is sharp off its axis can be faster
	if !r.given["optics.tube_length_mm"] {
		r.draft.kit.Optics.TubeLengthMM = r.draft.kit.Optics.FocalLengthMM
	}
	o := r.draft.kit.Optics
	if r.sound("optics.aperture_mm", "optics.focal_length_mm") && o.FocalLengthMM < fastest*o.ApertureMM {
		r.accuse("optics.focal_length_mm", "is too short for", "optics.aperture_mm", "are the two exchanged?")
	}
	const aperture, length = "optics.guide_aperture_mm", "optics.guide_focal_length_mm"
	switch {
	case r.given[aperture] != r.given[length]:
		present, absent := aperture, length
		if r.given[length] {
			present, absent = length, aperture
		}
		r.fault(present, fmt.Sprintf("stands alone; give %s too, or neither", absent))
	case r.sound(aperture, length) && o.GuideFocalLengthMM < fastest*o.GuideApertureMM:
		r.accuse(length, "is too short for", aperture, "are the two exchanged?")
	}
}

// checkField finds a pixel size or focal length in the wrong unit: the tangent plane of the framing can
// hold no field of 90°.
func (r *reader) checkField() {
	const widest = 90 * sky.Degree
	if !r.sound("optics.focal_length_mm", "camera.pixel_um", "camera.width_px", "camera.height_px") {
		return
	}
	width, height := r.draft.kit.Field()
	if max(width, height) >= widest {
		longer := "camera.width_px"
		if height > width {
			longer = "camera.height_px"
		}
		r.accuse(longer, fmt.Sprintf("makes a field of %s with", words.Degrees(max(width, height), 0)),
			"optics.focal_length_mm", "check both and camera.pixel_um; less than 90° is right")
	}
}

func (r *reader) checkAlarm() {
	const bell, command = "alarm.bell", "alarm.command"
	if r.sound(bell) && r.draft.kit.Alarm.Bell == "command" && !r.given[command] {
		r.fault(bell, `= "command" needs alarm.command; give the program and its arguments, like ["play", "call.wav"]`)
	}
}

// mostPoints is how many points a skyline may have. It is looked along a hundred thousand times a night.
const mostPoints = 3600

func (r *reader) checkHorizon() {
	if n := len(r.draft.points); n > mostPoints {
		r.fault(item("horizon", mostPoints+1), fmt.Sprintf("is one point too many of %d; %d are enough for a skyline, one for each tenth of a degree", n, mostPoints))
		return
	}
	r.distinct("horizon", "azimuth_deg", len(r.draft.points), "give each azimuth one altitude")
	r.draft.kit.Horizon = NewHorizon(r.draft.points)
}

// distinct faults each item whose field has the value of an earlier item's.
func (r *reader) distinct(list, name string, count int, remedy string) {
	first := map[any]string{}
	for i := range count {
		path := joined(item(list, i+1), name)
		if !r.sound(path) {
			continue
		}
		raw := r.raw[path]
		if whole, ok := raw.(int64); ok { // 95 and 95.0 are one azimuth
			raw = float64(whole)
		}
		if earlier, taken := first[raw]; taken {
			r.accuse(path, "is the same as", earlier, remedy)
			continue
		}
		first[raw] = path
	}
}
