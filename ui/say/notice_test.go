package say_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"duskhand/checklist/subs/arrival"
	"duskhand/ui/say"
)

func TestWhatIsOddAboutFramesInWords(t *testing.T) {
	for _, c := range []struct {
		notice arrival.Notice
		want   string
	}{
		{arrival.Notice{Kind: arrival.Silent, Path: "", Odd: arrival.Odd{Silence: 5 * time.Minute, None: true}}, "no sub in the 5 min since subs were started; has the sequence begun, and does it write to the folder that is watched?"},
		{arrival.Notice{Kind: arrival.Silent, Path: "", Odd: arrival.Odd{Silence: 596 * time.Second}}, "no new sub for 10 min; has the sequence stopped?"},
		{arrival.Notice{Kind: arrival.WrongExposure, Path: "/subs/L_063.00.fits", Odd: arrival.Odd{Filter: "L", Exposure: 5 * time.Minute, Wanted: time.Minute}}, "L_063.00.fits was exposed for 300 s; the kit has 60 s for L"},
		{arrival.Notice{Kind: arrival.WrongExposure, Path: "/subs/R_003.00.fits", Odd: arrival.Odd{Filter: "R", Exposure: time.Minute, Wanted: 2 * time.Minute}}, "R_003.00.fits was exposed for 60 s; the kit has 120 s for R"},
		{arrival.Notice{Kind: arrival.UnknownFilter, Path: "/subs/Ha_003.00.fits", Odd: arrival.Odd{Filter: "Ha", Filters: []string{"L", "R", "G", "B"}}}, `Ha_003.00.fits was taken through "Ha"; the kit has L, R, G, B; if it is one of these, add also_written = "Ha" to its [[subs.filter]]`},
		{arrival.Notice{Kind: arrival.UnknownFilter, Path: "/subs/_003.00.fits", Odd: arrival.Odd{}}, "_003.00.fits does not say its filter; name it when subs are started, or have the capture program write FILTER"},
		{arrival.Notice{Kind: arrival.OtherObject, Path: "/subs/L_064.00.fits", Odd: arrival.Odd{Named: "Tarantula Nebula", Target: "NGC 1365"}}, "L_064.00.fits says that it is of Tarantula Nebula, but the target is NGC 1365; see where the mount points, or correct the name"},
		{arrival.Notice{Kind: arrival.OtherObject, Path: "/subs/L_064.00.fits", Odd: arrival.Odd{Named: "M 42", Target: "NGC 1365"}}, "L_064.00.fits says that it is of M 42, but the target is NGC 1365; see where the mount points, or correct the name"},
		{arrival.Notice{Kind: arrival.SensorOff, Path: "/subs/L_003.00.fits", Odd: arrival.Odd{SensorC: -3.2, SetPointC: -5}}, "the sensor was at −3.2 °C in L_003.00.fits, its set point is −5.0 °C; see whether the cooler is on and keeps up"},
		{arrival.Notice{Kind: arrival.NotALight, Path: "/subs/L_064.00.fits", Odd: arrival.Odd{Header: "dark"}}, "L_064.00.fits is a dark by its header, and is not counted; lights are being taken"},
		{arrival.Notice{Kind: arrival.Copied, Path: "/subs/z.fits", Odd: arrival.Odd{Copy: "/subs/L_003.00.fits"}}, "z.fits has the same DATE-OBS as L_003.00.fits, so the two count once; if they are two subs, see to the capture computer's clock"},
		{arrival.Notice{Kind: arrival.Unread, Path: "/subs/x.cr3", Odd: arrival.Odd{Error: "x.cr3 is not a FITS file"}}, "x.cr3 is not a FITS file"},
		{arrival.Notice{Kind: arrival.DiskShort, Path: "", Odd: arrival.Odd{Subs: 19, Each: 52e6, Left: 20}}, "the disk has room for 19 more subs of 52.0 MB, but 20 are planned; make room"},
		{arrival.Notice{Kind: arrival.Spoilt, Path: "/subs/L_059.50.fits", Odd: arrival.Odd{Spoils: arrival.Rewinding}}, "L_059.50.fits was being exposed while the derotator was rewound; leave it out"},
		{arrival.Notice{Kind: arrival.Spoilt, Path: "/subs/L_063.40.fits", Odd: arrival.Odd{Spoils: arrival.PastLimit}}, "L_063.40.fits goes on past the derotator's limit, where the field turns; leave it out, and rewind"},
		{arrival.Notice{Kind: arrival.WrongExposure, Path: "/subs/L_059.00.fits", Odd: arrival.Odd{Filter: "L", Exposure: 61 * time.Second, Wanted: time.Minute}}, "L_059.00.fits was exposed for 61 s; the kit has 60 s for L"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.Capture, Ahead: -43 * time.Second}}, "the capture computer's clock is 43 s behind this one; set the one that is wrong"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.Capture, Ahead: 43 * time.Second}}, "the capture computer's clock is 43 s ahead of this one; set the one that is wrong"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.Capture, Ahead: -298 * time.Second}}, "the capture computer's clock is 5 min behind this one; set the one that is wrong"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.Folder, Ahead: -90 * time.Second}}, "the files' times are 90 s behind this clock; set the clock of the computer that keeps the folder"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.Capture, Ahead: 62 * time.Second}}, "the capture computer's clock is 62 s ahead of this one; set the one that is wrong"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.LocalTime, Ahead: 10*time.Hour + 30*time.Minute}}, "DATE-OBS is 10 h 30 min ahead of UTC, so it seems to be local time; have the capture program write UTC"},
		{arrival.Notice{Kind: arrival.ClockOff, Odd: arrival.Odd{Clock: arrival.LocalTime, Ahead: -7 * time.Hour}}, "DATE-OBS is 7 h 00 min behind UTC, so it seems to be local time; have the capture program write UTC"},
		{arrival.Notice{Kind: arrival.Spoilt, Path: "/subs/\x1b[31ma.fits"}, `\x1b[31ma.fits was being exposed while the derotator was rewound; leave it out`},
	} {
		assert.Equal(t, c.want, say.Notice(c.notice))
	}
}
