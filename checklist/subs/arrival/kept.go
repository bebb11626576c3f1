package arrival

import (
	"time"

	"duskhand/checklist"
	"duskhand/checklist/subs"
	"duskhand/sky"
)

// FrameOf returns a frame as the night keeps it: without its list of stars.
func FrameOf(a checklist.Arrived) Frame {
	f := Frame{
		File: File{Path: a.Path, Size: a.SizeBytes, Changed: instant(a.ChangedNs)}, Was: a.Was, Seen: instant(a.SeenNs),
		Late: time.Duration(a.LateS * float64(time.Second)), Already: a.Already,
		Header: subs.Header{Filter: a.Filter, Object: a.Object, Kind: subs.Kind(a.Kind), SensorC: a.SensorC, BinX: a.BinX, BinY: a.BinY,
			Width: a.Width, Height: a.Height},
		Remarks: a.Remarks, Unread: a.Unread, Placed: a.Placed, Unplaced: a.Unplaced,
	}
	if a.StartNs != nil {
		start := instant(*a.StartNs)
		f.Header.Start = &start
	}
	if a.OursNs != nil {
		ours := instant(*a.OursNs)
		f.Ours = &ours
	}
	if a.ExposureS != nil {
		exposure := time.Duration(*a.ExposureS * float64(time.Second))
		f.Header.Exposure = &exposure
	}
	if m := a.Measured; m != nil {
		f.Measured = measuredOf(*m)
	}
	return f
}

// BodyOf returns the event's body for a frame, which FrameOf undoes but for the list of stars.
func BodyOf(f Frame) checklist.SubArrivedBody {
	b := checklist.SubArrivedBody{
		Path: f.Path, SizeBytes: f.Size, ChangedNs: f.Changed.UnixNano(), Was: f.Was, SeenNs: f.Seen.UnixNano(), LateS: f.Late.Seconds(), Already: f.Already,
		Filter: f.Header.Filter, Object: f.Header.Object, Kind: string(f.Header.Kind), SensorC: f.Header.SensorC, BinX: f.Header.BinX, BinY: f.Header.BinY,
		Width: f.Header.Width, Height: f.Header.Height, Remarks: f.Remarks, Unread: f.Unread,
		Placed: f.Placed, Unplaced: f.Unplaced,
	}
	if f.Header.Start != nil {
		ns := f.Header.Start.UnixNano()
		b.StartNs = &ns
	}
	if f.Ours != nil {
		ns := f.Ours.UnixNano()
		b.OursNs = &ns
	}
	if f.Header.Exposure != nil {
		s := f.Header.Exposure.Seconds()
		b.ExposureS = &s
	}
	if m := f.Measured; m != nil {
		b.Measured = measuredBody(*m)
	}
	return b
}

func measuredOf(m checklist.MeasuredBody) *subs.Measured {
	all := subs.Measured{Background: m.Background, Noise: m.Noise, Count: m.Stars, HFD: m.HFD, Elongation: m.Elongation,
		Direction: sky.Angle(m.DirectionDeg) * sky.Degree, Saturated: m.Saturated, Full: m.Full}
	copy(all.Ninths[:], m.NinthsPx)
	for _, c := range m.Colours {
		all.Colours = append(all.Colours, subs.Colour{Name: c.Colour, Background: c.Background, Noise: c.Noise, Saturated: c.Saturated})
	}
	return &all
}

func measuredBody(m subs.Measured) *checklist.MeasuredBody {
	b := checklist.MeasuredBody{Background: m.Background, Noise: m.Noise, Stars: m.Count, HFD: m.HFD, Elongation: m.Elongation,
		DirectionDeg: m.Direction.Degrees(), Saturated: m.Saturated, Full: m.Full}
	if m.Ninths != [9]float64{} {
		b.NinthsPx = m.Ninths[:]
	}
	for _, c := range m.Colours {
		b.Colours = append(b.Colours, checklist.ColourBody{Colour: c.Name, Background: c.Background, Noise: c.Noise, Saturated: c.Saturated})
	}
	return &b
}

func instant(ns int64) time.Time { return time.Unix(0, ns).UTC() }

// Kept returns the frames of a night, as they were read.
func Kept(n checklist.Night) []Frame {
	frames := make([]Frame, len(n.Arrived))
	for i, a := range n.Arrived {
		frames[i] = FrameOf(a)
	}
	return frames
}
