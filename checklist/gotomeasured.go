package checklist

import (
	"errors"
	"slices"
	"time"

	"duskhand/checklist/journal"
	"duskhand/sky"
	"duskhand/sky/words"
)

// KindGotoMeasured is the event of a light having shown how far off a target the telescope looked after it was sent
// there.
const KindGotoMeasured = "goto-measured"

// GotoMeasuredBody is the body of KindGotoMeasured: the target by its name, how far off the telescope looked, the turns
// of the mount's own axes from where it was sent to where it looked (azimuth clockwise from above, altitude up), and the
// light that shows it.
type GotoMeasuredBody struct {
	Target      string  `json:"target"`
	OffDeg      float64 `json:"off_deg"`
	AzimuthDeg  float64 `json:"azimuth_deg"`
	AltitudeDeg float64 `json:"altitude_deg"`
	Light       string  `json:"light"`
}

// MeasureGoto says how far off a target a light shows the telescope to look, the first since it was sent there. Off is
// the angle on the sky; Azimuth and Altitude are the turns of the mount's own axes from where it was sent to where it
// looks.
type MeasureGoto struct {
	Target                 string
	Off, Azimuth, Altitude sky.Angle
	Light                  string // the file's path
}

func (a MeasureGoto) event(Night, *time.Location) (string, any, error) {
	if a.Target == "" {
		return "", nil, errors.New("the go-to that was measured names no target; give the one that the telescope was sent to")
	}
	if err := finite("the error of a go-to", &a.Off, &a.Azimuth, &a.Altitude); err != nil {
		return "", nil, err
	}
	return KindGotoMeasured, GotoMeasuredBody{a.Target, a.Off.Degrees(), a.Azimuth.Signed().Degrees(), a.Altitude.Degrees(), a.Light}, nil
}

// Landing is where a go-to ended, as MeasureGoto says it.
type Landing struct {
	MeasureGoto
	At time.Time // when it was measured
}

func gotoMeasuredRow() row {
	return row{kind: KindGotoMeasured, change: with((*Night).gotoMeasured), words: func(e journal.Event) string {
		return said(e, func(b GotoMeasuredBody) string {
			return "go-to " + b.Target + ": " + words.Arcminutes(degrees(b.OffDeg), 1) + " off"
		})
	}}
}

func (n *Night) gotoMeasured(b GotoMeasuredBody, at time.Time) {
	n.Landings = append(slices.Clip(n.Landings), Landing{At: at, MeasureGoto: MeasureGoto{
		Target: b.Target, Off: degrees(b.OffDeg), Azimuth: degrees(b.AzimuthDeg), Altitude: degrees(b.AltitudeDeg), Light: b.Light}})
}

// Landed returns where the last go-to to the present target ended; ok is false while no light has shown it.
func (n Night) Landed() (l Landing, ok bool) {
	since, chosen := n.TargetSince()
	if k := len(n.Landings); chosen && k > 0 && n.Landings[k-1].Target == n.Target.Name && !n.Landings[k-1].At.Before(since) {
		return n.Landings[k-1], true
	}
	return Landing{}, false
}
