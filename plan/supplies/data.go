package supplies

import (
	"fmt"

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

// Words says it in a sentence.
func (r Room) Words() string {
	head := fmt.Sprintf("The %d subs planned take %s, %s each", r.Subs, bytesText(r.Bytes), bytesText(r.BytesEach))
	if r.Subs == 1 {
		head = fmt.Sprintf("The one sub planned takes %s", bytesText(r.Bytes))
	}
	if r.Fits() {
		return fmt.Sprintf("%s; of %s free %s stay free.", head, bytesText(r.FreeBytes), bytesText(r.LeftBytes()))
	}
	return fmt.Sprintf("%s, and only %s are free: the disk is full after %d of them; make room for %s more.", head,
		bytesText(r.FreeBytes), r.SubsThatFit(), bytesText(-r.LeftBytes()))
}

// bytesText prints an amount of data in decimal units, as disks are sold.
func bytesText(n int64) string {
	const mega, giga, tera = 1e6, 1e9, 1e12
	switch x := float64(n); {
	case x < giga:
		return fmt.Sprintf("%.1f MB", x/mega)
	case x < tera:
		return fmt.Sprintf("%.1f GB", x/giga)
	default:
		return fmt.Sprintf("%.2f TB", x/tera)
	}
}
