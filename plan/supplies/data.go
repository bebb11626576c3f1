package supplies

import (
	"duskhand/plan"
	"duskhand/plan/kit"
	"duskhand/sky"
)

// A FITS file is made of blocks; header and data each fill whole ones.
// Source: FITS Standard 4.0, section 3.1: blocks of 2880 bytes; a header card has 80, section 3.2.
const (
	blockBytes   = 2880
	headerBlocks = 2 // 72 cards: room for what cameras write; our choice
	bytesPerPix  = 2 // 16 bits
)

// Data is what subs take of a disk, uncompressed.
type Data struct {
	Subs             int
	BytesEach, Bytes int64
}

// DataOf returns what so many subs of the camera take: 16 bits for each pixel, unbinned, with header and
// filling. Frames for calibration are not in it.
func DataOf(camera kit.Camera, subs int) Data {
	pixels := int64(camera.Width) * int64(camera.Height) * bytesPerPix
	blocks := (pixels + blockBytes - 1) / blockBytes
	each := (headerBlocks + blocks) * blockBytes
	return Data{Subs: subs, BytesEach: each, Bytes: int64(subs) * each}
}

// Room is the data beside what is free on the disk.
type Room struct {
	Data
	FreeBytes int64
}

// Against returns the data beside what is free on the disk that they go to.
func (d Data) Against(freeBytes int64) Room { return Room{d, freeBytes} }

// LeftBytes returns what is free afterwards, negative when they do not fit.
func (r Room) LeftBytes() int64 { return r.FreeBytes - r.Bytes }

// Fits tells whether all of them fit.
func (r Room) Fits() bool { return r.LeftBytes() >= 0 }

// SubsThatFit returns how many subs the disk holds, those planned or more.
func (r Room) SubsThatFit() int { return int(max(0, r.FreeBytes) / r.BytesEach) }

// FullAt returns when the first of the subs begins that finds no room any more; not OK if all do.
func (r Room) FullAt(subs []plan.Sub) sky.Event {
	if fit := r.SubsThatFit(); fit < len(subs) {
		return sky.Event{At: subs[fit].Exposure.From, OK: true}
	}
	return sky.Event{}
}
