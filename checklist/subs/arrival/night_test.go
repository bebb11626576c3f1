package arrival_test

import (
	"fmt"
	"time"
	_ "time/tzdata" // the example's zone, on computers without their own table

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/plan/kit"
)

var dusk = time.Date(2026, 12, 5, 11, 30, 0, 0, time.UTC)

func at(minute float64) time.Time { return dusk.Add(time.Duration(minute * float64(time.Minute))) }

// situation is the example kit with two runs: NGC 2070 from minute 0 to 60, NGC 1365 from 62 on, subs being
// taken in both. The kit has L of 60 s and R, G, B of 120 s, 4 s apart and 12 s after five; its sensor −5 °C.
func situation() arrival.Situation {
	k := kit.Example()
	target := func(i int) *checklist.Target {
		return &checklist.Target{Name: k.Targets[i].Name, Star: k.Targets[i].Star}
	}
	return arrival.Situation{Kit: k, Current: k.Targets[0].Name, Now: at(70), Night: checklist.Night{
		Runs: []checklist.Run{
			{Start: at(0), End: at(60), Target: target(0), Subs: []checklist.Subs{{Start: at(1), End: at(60)}}},
			{Start: at(62), Open: true, Target: target(1)},
		},
		Subs: &checklist.Subs{Start: at(63)},
	}}
}

// light is a frame whose exposure began at a minute, seen 4 s after its end by clocks that agree. Each change
// alters it.
func light(minute float64, filter string, exposure time.Duration, changes ...func(*arrival.Frame)) arrival.Frame {
	start := at(minute)
	written := start.Add(exposure + 3*time.Second)
	f := arrival.Frame{
		File: arrival.File{Path: fmt.Sprintf("/subs/%s_%06.2f.fits", filter, minute), Size: 52e6, Changed: written},
		Seen: written.Add(time.Second), Late: 2 * time.Second,
		Header: subs.Header{Start: &start, Exposure: &exposure, Filter: filter, Kind: subs.Light, Width: 6248, Height: 4176},
	}
	for _, change := range changes {
		change(&f)
	}
	return f
}

func kindOf(kind subs.Kind) func(*arrival.Frame) {
	return func(f *arrival.Frame) { f.Header.Kind = kind }
}

func object(name string) func(*arrival.Frame) {
	return func(f *arrival.Frame) { f.Header.Object = name }
}

func sensor(celsius float64) func(*arrival.Frame) {
	return func(f *arrival.Frame) { f.Header.SensorC = &celsius }
}

func path(p string) func(*arrival.Frame) { return func(f *arrival.Frame) { f.Path = p } }

// raw is a frame that says nothing of itself.
func raw(f *arrival.Frame) {
	f.Header, f.Unread = subs.Header{}, "x.cr3 is not a FITS file"
}

// behind sets the capture computer's clock back; files that of the files' times.
func behind(d, files time.Duration) func(*arrival.Frame) {
	return func(f *arrival.Frame) {
		start := f.Header.Start.Add(-d)
		f.Header.Start, f.Changed = &start, f.Changed.Add(-files)
	}
}

func already(f *arrival.Frame) { f.Already, f.Seen = true, at(69) }
