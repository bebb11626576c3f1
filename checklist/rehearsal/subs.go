package rehearsal

import (
	"fmt"
	"math"
	"time"

	"duskhand/checklist"
	"duskhand/plan"
	"duskhand/plan/kit"
)

// The subs of the example night: no capture computer writes them, so their stars are invented. They are fine
// until the tube cools, which shows in the half-flux diameter.

// InventedSub is the n-th frame of the example. Its numbers waver by a fixed pattern.
func InventedSub(k kit.Kit, n int, sub plan.Sub, target string, inRun int) checklist.SubArrivedBody {
	waver := func(period float64) float64 { return math.Sin(2 * math.Pi * float64(n) / period) }
	start, exposure := sub.Exposure.From.UnixNano(), sub.Filter.Exposure.Seconds()
	wide := map[bool]float64{true: 1, false: 0.35}[sub.Filter.Name == "L"]
	b := checklist.SubArrivedBody{
		Path: fmt.Sprintf("%s_%03d.fits", sub.Filter.Name,
			n+1), SizeBytes: int64(2*k.Camera.Width*k.Camera.Height) + 2880,
		ChangedNs: sub.Exposure.To.Add(2 * time.Second).UnixNano(), SeenNs: sub.Exposure.To.Add(4 * time.Second).UnixNano(),
		StartNs: &start, ExposureS: &exposure, Filter: sub.Filter.Name, Object: target, Kind: "light", BinX: 1, BinY: 1, Width: k.Camera.Width, Height: k.Camera.Height,
		Measured: &checklist.MeasuredBody{
			Background: 500 + wide*exposure*5 + 6*waver(31), Noise: 14 + 8*wide, Stars: int(wide*math.Sqrt(exposure)*150 + 40*waver(13)),
			HFD: 1.9 + 0.0035*float64(n) + 0.05*waver(7), Elongation: 1.08 + 0.02*waver(11), DirectionDeg: 90 + 60*waver(17),
		},
	}
	if inRun > 1 {
		moved := 1.5 + 1.2*waver(5) + 0.01*float64(inRun)
		b.Turning = &checklist.TurningBody{MovedPx: &moved, Kind: "steady", RateDegPerH: 0.02 * waver(5),
			ErrorDegPerH: 0.03, PredictedDegPerH: 17, Lights: min(inRun, 12)}
	}
	return b
}
