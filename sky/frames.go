package sky

import "time"

// Frames makes frames for questions about many sites and instants, and keeps those it made: most questions
// are about one site and one night. What it returns does not depend on what was asked before. It is not for
// several goroutines at once. The zero Frames is ready.
type Frames struct {
	frames map[framesKey]*Frame
	earths map[framesKey]*earth // with the zero Site
}

type framesKey struct {
	site   Site
	middle int64 // Unix seconds
	dut1   time.Duration
}

// framesGrid is the distance of the instants around which Frames makes frames: none is further than half of it from
// what is asked. A frame has the aberration of its middle, which turns by up to 0.35″ a day: 0.0025″ in ten minutes.
const framesGrid = 20 * time.Minute

// mostFrames bounds what is kept, to some hundred kilobytes. Beyond it all is made anew.
const mostFrames = 256

// Around returns a frame of site whose middle is at most ten minutes from t, with UT1 = UTC + dut1.
func (fs *Frames) Around(site Site, t time.Time, dut1 time.Duration) *Frame {
	middle := t.UTC().Round(framesGrid)
	k := framesKey{site, middle.Unix(), dut1}
	if frame, known := fs.frames[k]; known {
		return frame
	}
	if fs.frames == nil || len(fs.frames) >= mostFrames {
		fs.frames = make(map[framesKey]*Frame)
	}
	frame := fs.earth(middle, dut1).over(site)
	fs.frames[k] = frame
	return frame
}

func (fs *Frames) earth(middle time.Time, dut1 time.Duration) *earth {
	k := framesKey{Site{}, middle.Unix(), dut1}
	if e, known := fs.earths[k]; known {
		return e
	}
	if fs.earths == nil || len(fs.earths) >= mostFrames {
		fs.earths = make(map[framesKey]*earth)
	}
	e := newEarth(middle, dut1)
	fs.earths[k] = e
	return e
}
