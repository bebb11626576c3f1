package draw_test

import (
	"math"
	"time"

	"duskhand/sky"
	"duskhand/ui/draw"
	"duskhand/ui/theme"
)

// scene is one drawing with made-up values, for the golden files and the rules.
type scene struct {
	name string
	draw func(draw.Area, draw.Charset)
	most int // rows worth showing; 0 for all
}

// rows returns how many rows of a window this high the golden files show.
func (s scene) rows(height int) int {
	if s.most == 0 {
		return height
	}
	return s.most
}

// scenes lists every drawing once.
func scenes() []scene {
	return []scene{
		{"bigtext", func(a draw.Area, cs draw.Charset) { draw.BigText(a, cs, theme.Answer, "16:59") }, 14},
		{"rewind", func(a draw.Area, cs draw.Charset) { draw.BigText(a, cs, theme.Call, "REWIND") }, 14},
		{"gauge", func(a draw.Area, cs draw.Charset) { draw.Gauge(a, cs, gaugeExample()) }, 2},
		{"strip", func(a draw.Area, cs draw.Charset) { draw.NightStrip(a, cs, stripExample()) }, 3},
		{"plot", func(a draw.Area, cs draw.Charset) { draw.Plot(a, cs, plotExample()) }, 20},
		{"dome", func(a draw.Area, cs draw.Charset) { draw.Dome(a, cs, domeExample()) }, 0},
		{"field", func(a draw.Area, cs draw.Charset) { draw.Field(a, cs, fieldExample()) }, 0},
		{"table", func(a draw.Area, cs draw.Charset) { draw.Table(a, cs, tableExample()) }, 6},
		{"sparkline", func(a draw.Area, cs draw.Charset) {
			draw.Sparkline(a, cs, theme.Text, sparkExample(), 2, 4)
		}, 1},
	}
}

// fieldExample is a made-up field: a chip turned by 30°, an outline, stars of all shapes.
func fieldExample() draw.FieldValues {
	v := draw.FieldValues{North: draw.Spot{Up: 1}, East: draw.Spot{Right: -1}, Cross: &draw.Spot{}, ScaleSize: 0.5, ScaleLabel: "30′", Steps: [3]float64{6, 8, 10}}
	chip := draw.FieldLine{Closed: true, Role: theme.Answer}
	for _, corner := range [][2]float64{{-0.6, -0.4}, {0.6, -0.4}, {0.6, 0.4}, {-0.6, 0.4}} {
		sin, cos := math.Sincos(math.Pi / 6)
		chip.Spots = append(chip.Spots, draw.Spot{Right: corner[0]*cos - corner[1]*sin, Up: corner[0]*sin + corner[1]*cos})
	}
	v.Lines = []draw.FieldLine{chip, {Dashed: true, Role: theme.Faint, Spots: []draw.Spot{{Right: -0.9, Up: -0.9}, {Right: 0.9, Up: -0.9}}}}
	v.Names = []draw.FieldName{{Spot: draw.Spot{Right: 0.2, Up: -0.2}, Text: "Object", Role: theme.Text}}
	for i := range 40 {
		angle, radius := float64(i)*2.4, math.Sqrt(float64(i)/40)
		star := draw.FieldStar{Spot: draw.Spot{Right: radius * math.Cos(angle), Up: radius * math.Sin(angle)}, Magnitude: 5 + float64(i)/5}
		if i == 3 {
			star.Label = "Star"
		}
		v.Stars = append(v.Stars, star)
	}
	return v
}

func gaugeExample() draw.GaugeValues {
	return draw.GaugeValues{
		Min: -16 * sky.Degree, Max: 16 * sky.Degree, Now: 4.2 * sky.Degree, Turning: +1,
		NowLabel: "turning 17.3° an hour, quickening",
		Marks:    []draw.GaugeMark{{At: -14 * sky.Degree, Label: "started 22:40"}},
	}
}

// night returns the instant so many hours after a made-up sunset.
func night(hours float64) time.Time {
	sunset := time.Date(2026, 1, 17, 10, 0, 0, 0, time.UTC)
	return sunset.Add(time.Duration(hours * float64(time.Hour)))
}

func stripExample() draw.StripValues {
	v := draw.StripValues{
		From: night(0), To: night(10), Left: "dusk", Right: "dawn", Now: night(4.1),
		Runs: []draw.StripRun{
			{From: night(1.6), To: night(3), Label: "run 1"},
			{From: night(3.05), To: night(5.2), Label: "run 2", Rewound: true},
			{From: night(5.25), To: night(7.2), Label: "run 3", Rewound: true},
			{From: night(7.25), To: night(8.3), Label: "run 4", Rewound: true},
		},
		Hours: []draw.Tick{
			{At: night(1), Label: "21"}, {At: night(2), Label: "22"}, {At: night(3), Label: "23"},
			{At: night(4), Label: "0"}, {At: night(5), Label: "1"}, {At: night(6), Label: "2"},
			{At: night(7), Label: "3"}, {At: night(8), Label: "4"}, {At: night(9), Label: "5"},
		},
		Notes: []draw.Tick{{At: night(1.4), Label: "dark 21:24"}, {At: night(6.5), Label: "Moon up 02:31"}},
	}
	for i := range 41 { // a parabola from 0° at both ends to −32° in the middle, as in a short summer night
		t := float64(i)/20 - 1
		v.Sun = append(v.Sun, sky.Angle(-32*(1-t*t))*sky.Degree)
	}
	return v
}

func plotExample() draw.PlotValues {
	v := draw.PlotValues{
		From: night(0), To: night(10), Low: 0, High: 90, Now: night(4.1),
		Hours:   stripExample().Hours,
		Heights: []draw.PlotTick{{Value: 0, Label: "0°"}, {Value: 45, Label: "45°"}, {Value: 90, Label: "90°"}},
	}
	var high, low []draw.PlotPoint
	for i := range 101 {
		h := float64(i) / 10
		high = append(high, draw.PlotPoint{At: night(h), Value: 70 - 2.5*(h-5)*(h-5), Gap: i == 30})
		low = append(low, draw.PlotPoint{At: night(h), Value: 10 + 6*h})
	}
	high = append(high[:20], high[30:]...)
	v.Curves = []draw.PlotCurve{{Role: theme.Line, Points: low}, {Role: theme.Mark, Points: high}}
	return v
}

func at(altitudeDeg, azimuthDeg float64) sky.Horizontal {
	return sky.Horizontal{
		Altitude: sky.Angle(altitudeDeg) * sky.Degree, Azimuth: sky.Angle(azimuthDeg) * sky.Degree,
	}
}

// domeExample is roughly the sky of a summer evening at 33° south.
func domeExample() draw.DomeValues {
	return draw.DomeValues{
		Horizon: func(azimuth sky.Angle) sky.Angle { // trees to the east, a low hill to the south-west
			a := azimuth.Degrees()
			trees := 22*math.Exp(-math.Pow((a-95)/25, 2)) + 3*math.Abs(math.Sin(a/4))
			return sky.Angle(trees+9*math.Exp(-math.Pow((a-230)/30, 2))) * sky.Degree
		},
		Stars: []draw.DomeStar{
			{Place: at(58, 40), Magnitude: -1.46, Label: "Sirius"},
			{Place: at(65, 120), Magnitude: -0.74, Label: "Canopus", Role: theme.Chosen},
			{Place: at(52, 355), Magnitude: 0.13, Label: "Rigel"},
			{Place: at(40, 350), Magnitude: 0.42},
			{Place: at(48, 215), Magnitude: 0.46, Label: "Achernar", Role: theme.Chosen},
			{Place: at(38, 10), Magnitude: 1.69}, {Place: at(45, 358), Magnitude: 1.77},
			{Place: at(25, 60), Magnitude: 0.37, Label: "Procyon"},
			{Place: at(20, 150), Magnitude: 0.77, Label: "Acrux"},
			{Place: at(18, 160), Magnitude: 1.25}, {Place: at(10, 95), Magnitude: 1.5},
			{Place: at(35, 130), Magnitude: 1.86}, {Place: at(30, 110), Magnitude: 1.67},
			{Place: at(42, 60), Magnitude: 2.45}, {Place: at(70, 20), Magnitude: 2.6},
			{Place: at(62, 280), Magnitude: 2.9}, {Place: at(33, 250), Magnitude: 2.04},
			{Place: at(22, 300), Magnitude: 3.1}, {Place: at(30, 270), Magnitude: 3.4},
			{Place: at(15, 200), Magnitude: 2.8}, {Place: at(75, 200), Magnitude: 3.2},
		},
		Pair: []sky.Horizontal{at(48, 215), at(65, 120)},
		Marks: []draw.DomeMark{
			{Place: at(52, 160), Kind: draw.TargetMark, Label: "NGC 2070"},
			{Place: at(28, 310), Kind: draw.MoonMark, Label: "Moon"},
		},
		Keyhole: draw.DomeRing{Centre: at(86, 70), Radius: 15 * sky.Degree},
	}
}

func tableExample() draw.TableValues {
	return draw.TableValues{
		Columns: []draw.TableColumn{
			{Title: "stars"}, {Title: "apart", Width: 5, Align: draw.AlignRight},
			{Title: "error", Width: 5, Align: draw.AlignRight},
		},
		Rows: [][]string{
			{"Achernar, then Canopus", "39°", "1.2′"}, {"Achernar, then Rigel", "67°", "1.3′"},
			{"Fomalhaut, then Canopus", "78°", "1.4′"}, {"α Centauri and Hadar, which are too close", "4°", "9.8′"},
			{"Sirius, then Achernar", "84°", "1.5′"}, {"Canopus, then Rigel", "45°", "1.9′"},
			{"Procyon, then Canopus", "72°", "2.0′"}, {"Sirius, then Acrux", "66°", "2.1′"},
		},
		Chosen: 1,
	}
}

func sparkExample() []draw.Sample {
	var s []draw.Sample
	for i := range 48 {
		s = append(s, draw.Sample{Value: 3 + math.Sin(float64(i)/5), Missing: i >= 20 && i < 23})
	}
	return s
}
