package place

import (
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/framing"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// Off is how far the telescope looks off a target by the last light that shows it.
type Off struct {
	Target      string
	At          time.Time     // the middle of the light's exposure
	Centre      sky.J2000     // where the middle of its chip looks
	AtCentre    sky.Angle     // the camera angle there, J2000
	By          sky.Angle     // from the place where the middle of the chip is wanted
	Nudge       framing.Nudge // that takes it there now
	Nudgeable   bool          // false at the mount's axis or below the horizon, where there is no way
	CameraAngle sky.Angle     // at the target, J2000: the middle's, carried along the meridians
	AngleError  sky.Angle     // one σ
}

// OffOf returns how far the telescope looks off a target now, by the last light that was placed since it was sent
// there: it tracks, so that it still looks where the light did. ok is false when no light tells.
//
// night is that of the target; axis is the mount's as known.
func OffOf(n checklist.Night, night *plan.Night, axis kit.Axis, target kit.Target, now time.Time) (off Off, ok bool) {
	a, at, ok := lastOf(n, target)
	if !ok {
		return Off{}, false
	}
	wanted := framing.Middle(target)
	off = Off{Target: target.Name, At: at, Centre: a.Centre(), AtCentre: a.CameraAngle(), By: a.Centre().Direction().Separation(wanted.Direction()),
		CameraAngle: AngleAt(*a, target.Star.Place), AngleError: a.AngleError()}
	from, to := Direction(night, a.Centre(), now), Direction(night, wanted, now)
	if to.Z > 0 {
		off.Nudge, off.Nudgeable = framing.Move(sky.MountAxis(axis.Tilt, axis.Toward), from, to)
	}
	return off, true
}

// Landing returns how far off the present target the telescope looked by the first light that was placed since it was
// sent there. ok is false when no light tells, when that is noted already, where the mount has no way from the one
// place to the other, and when the target was brought back to its place before that light, which then shows the nudge.
//
// night is that of the target; axis is the mount's as known.
func Landing(n checklist.Night, night *plan.Night, axis kit.Axis, target kit.Target) (landed checklist.MeasureGoto, ok bool) {
	since, chosen := n.TargetSince()
	if _, known := n.Landed(); known || !chosen {
		return landed, false
	}
	for _, light := range n.Placed() {
		at, dated := light.Middle()
		began, _ := light.Began()
		if !dated || began.Before(since) {
			continue
		}
		if n.Recentred != nil && n.Recentred.After(since) && began.After(*n.Recentred) {
			return landed, false
		}
		looks, wanted := light.Placed.Centre(), framing.Middle(target)
		off := looks.Direction().Separation(wanted.Direction())
		from, to := Direction(night, wanted, at), Direction(night, looks, at)
		if off > lost || from.Z <= 0 || to.Z <= 0 {
			return landed, false
		}
		move, possible := framing.Move(sky.MountAxis(axis.Tilt, axis.Toward), from, to)
		return checklist.MeasureGoto{Target: target.Name, Off: off, Azimuth: move.Azimuth, Altitude: move.Altitude, Light: light.Path}, possible
	}
	return landed, false
}

// Direction returns where a place stands at an instant, airless: east, north, up.
func Direction(night *plan.Night, place sky.J2000, at time.Time) sky.Direction {
	return night.Frame.Direction(night.Frame.Fix(sky.Star{Place: place}), at)
}

// lastOf returns the last light that looks within the search's reach of a target, if none has looked elsewhere
// since, with the middle of its exposure.
func lastOf(n checklist.Night, target kit.Target) (p *checklist.PlacedBody, at time.Time, ok bool) {
	placed := n.Placed()
	if len(placed) == 0 {
		return nil, at, false
	}
	last := placed[len(placed)-1]
	at, dated := last.Middle()
	if !dated || last.Placed.Centre().Direction().Separation(framing.Middle(target).Direction()) > lost {
		return nil, at, false
	}
	return last.Placed, at, true
}

// AngleAt returns the position angle of the chip's up at a place near its middle.
func AngleAt(p checklist.PlacedBody, at sky.J2000) sky.Angle {
	sensor := framing.Sensor{PerPixel: p.PerPixel(), Mirrored: p.Mirrored}
	return framing.NewChip(sensor, p.Centre(), p.CameraAngle()).CameraAngleAt(at)
}
