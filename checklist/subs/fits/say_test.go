package fits_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/checklist/subs"
	"duskhand/checklist/subs/fits"
)

func said(t *testing.T, cards ...string) *fits.Frame {
	t.Helper()
	frame, err := read(file(24, small(cards...)...))
	require.NoError(t, err)
	return frame
}

func TestStartOfTheExposure(t *testing.T) {
	evening := time.Date(2026, 10, 3, 21, 15, 30, 0, time.UTC)
	for _, c := range []struct {
		name   string
		cards  []string
		want   time.Time // zero: none
		remark string
	}{
		{"to the second", []string{"DATE-OBS='2026-10-03T21:15:30'"}, evening, ""},
		{"with a fraction", []string{"DATE-OBS='2026-10-03T21:15:30.125'"}, evening.Add(125 * time.Millisecond), ""},
		{"with a Z", []string{"DATE-OBS='2026-10-03T21:15:30Z'"}, evening, ""},
		{"in a leap second", []string{"DATE-OBS='2016-12-31T23:59:60.5'"}, time.Date(2017, 1, 1, 0, 0, 0, 500_000_000, time.UTC), ""},
		{"a day and a time apart", []string{"DATE-OBS='2026-10-03'", "TIME-OBS='21:15:30'"}, evening, ""},
		{"a day alone", []string{"DATE-OBS='2026-10-03'"}, time.Time{}, "gives the day only"},
		{"a blank for the T", []string{"DATE-OBS='2026-10-03 21:15:30.5'"}, evening.Add(500 * time.Millisecond), ""},
		{"an offset from UTC", []string{"DATE-OBS='2026-10-04T06:45:30+09:30'"}, evening, ""},
		{"an offset without its colon", []string{"DATE-OBS='2026-10-03T13:15:30-0800'"}, evening, ""},
		{"a day, and the clock as UT", []string{"DATE-OBS='2026-10-03'", "UT='21:15:30'"}, evening, ""},
		{"a day, and the clock as UTSTART", []string{"DATE-OBS='2026-10-03'", "UTSTART='21:15:30'"}, evening, ""},
		{"DATE-BEG", []string{"DATE-BEG='2026-10-03T21:15:30'"}, evening, ""},
		{"a day, and the whole in DATE-BEG", []string{"DATE-OBS='2026-10-03'", "DATE-BEG='2026-10-03T21:15:30'"}, evening, ""},
		{"the middle by DATE-AVG", []string{"DATE-AVG='2026-10-03T21:16:30'", "EXPTIME=120."}, evening, ""},
		{"the middle of nobody knows what", []string{"DATE-AVG='2026-10-03T21:16:30'"}, time.Time{}, ""},
		{"the middle by MJD-AVG", []string{"MJD-AVG=51544.5", "EXPTIME=120."}, time.Date(2000, 1, 1, 11, 59, 0, 0, time.UTC), ""},
		{"MJD-BEG", []string{"MJD-BEG=51544.5"}, time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC), ""},
		// JD 2451545.0 is 2000 January 1, 12h: Meeus, ch. 7.
		{"JD", []string{"JD=2451545.0"}, time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC), ""},
		// MJD 51544.5 is 2000 January 1, 12h: Meeus, Astronomical Algorithms, ch. 7.
		{"MJD-OBS alone", []string{"MJD-OBS=51544.5"}, time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC), ""},
		{"MJD-OBS, exacter than the day", []string{"DATE-OBS='2000-01-01'", "MJD-OBS=51544.75"}, time.Date(2000, 1, 1, 18, 0, 0, 0, time.UTC), ""},
		{"both whole", []string{"DATE-OBS='2026-10-03T21:15:30'", "MJD-OBS=51544.5"}, evening, ""},
		{"MJD-OBS of no time", []string{"MJD-OBS=1D300"}, time.Time{}, "no date of our time"},
		{"UTC by name", []string{"TIMESYS='UTC(NIST)'", "DATE-OBS='2026-10-03T21:15:30'"}, evening, ""},
		{"another scale", []string{"TIMESYS='TDB'", "DATE-OBS='2026-10-03T21:15:30'"}, time.Time{}, "its times are in TDB (TIMESYS), not in UTC"},
		{"no date", []string{"DATE-OBS='2026-13-03T21:15:30'"}, time.Time{}, `DATE-OBS is "2026-13-03T21:15:30", not a date like 2026-10-03T21:15:30`},
		{"nothing", nil, time.Time{}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			frame := said(t, c.cards...)
			if c.want.IsZero() {
				assert.Nil(t, frame.Header.Start)
			} else if assert.NotNil(t, frame.Header.Start) {
				assert.WithinDuration(t, c.want, *frame.Header.Start, time.Microsecond, "a day's fraction of 16 digits")
				assert.Equal(t, time.UTC, frame.Header.Start.Location())
			}
			if c.remark == "" {
				assert.Empty(t, frame.Remarks)
			} else if assert.Len(t, frame.Remarks, 1) {
				assert.Contains(t, frame.Remarks[0], "night.fits: ")
				assert.Contains(t, frame.Remarks[0], c.remark)
			}
		})
	}
}

func TestKindHoweverItIsSpelled(t *testing.T) {
	for text, want := range map[string]subs.Kind{
		"Light Frame": subs.Light, "LIGHT": subs.Light, "light": subs.Light, "Light Sub": subs.Light, "object": subs.Light, "Science": subs.Light,
		"Dark Frame": subs.Dark, "DARK": subs.Dark, "DarkFlat": subs.Dark, "Flat Dark": subs.Dark, "Master Dark": subs.Dark,
		"Flat Field": subs.Flat, "SKYFLAT": subs.Flat, "Flat Frame": subs.Flat,
		"Bias Frame": subs.Bias, "ZERO": subs.Bias, "Offset": subs.Bias,
		"": subs.UnknownKind, "Focus": subs.UnknownKind,
	} {
		assert.Equal(t, want, said(t, "IMAGETYP='"+text+"'").Header.Kind, "%q", text)
	}
	assert.Equal(t, subs.Light, said(t, "FRAME='Light'").Header.Kind)
	assert.Equal(t, subs.UnknownKind, said(t).Header.Kind)
}

func TestExposureAndSensor(t *testing.T) {
	frame := said(t, "EXPTIME=1.2D2 / seconds", "EXPOSURE=7", "CCD-TEMP='-9.5'", "XBINNING=2", "YBINNING=3.0")
	assert.Equal(t, 2*time.Minute, *frame.Header.Exposure)
	assert.Equal(t, -9.5, *frame.Header.SensorC)
	assert.Equal(t, [2]int{2, 3}, [2]int{frame.Header.BinX, frame.Header.BinY})
	assert.Empty(t, frame.Remarks)

	frame = said(t, "EXPTIME=-1", "EXPOSURE=30", "CCD-TEMP=cold", "XBINNING=0")
	assert.Equal(t, 30*time.Second, *frame.Header.Exposure)
	assert.Nil(t, frame.Header.SensorC)
	assert.Equal(t, 1, frame.Header.BinX)
	require.Len(t, frame.Remarks, 3)
	assert.Equal(t, `night.fits: XBINNING is "0", not a whole number from 1 up; taken for 1`, frame.Remarks[0])
	assert.Nil(t, said(t, "EXPTIME=1E300").Header.Exposure)

	bare := said(t).Header
	assert.Equal(t, subs.Header{BinX: 1, BinY: 1, Width: 4, Height: 3}, bare)
}

func TestTextCannotDriveATerminal(t *testing.T) {
	frame := said(t, "OBJECT='M\x1b[31m 42\x07'", "FILTER='H\xff\u03b1 '")
	assert.Equal(t, "M[31m 42", frame.Header.Object)
	assert.Equal(t, "Hα", frame.Header.Filter)
}

func TestFirstOfTwoCardsHolds(t *testing.T) {
	assert.Equal(t, "L", said(t, "FILTER='L'", "FILTER='R'").Header.Filter)
}

func TestTheMosaicOfAColourChip(t *testing.T) {
	for _, c := range []struct {
		name   string
		cards  []string
		want   subs.Mosaic
		remark string
	}{
		{"said", []string{"BAYERPAT='RGGB'"}, "RGGB", ""},
		{"begun a column further in", []string{"BAYERPAT='RGGB'", "XBAYROFF= 1"}, "GRBG", ""},
		{"and a row", []string{"BAYERPAT='RGGB'", "XBAYROFF= 1", "YBAYROFF= 3"}, "BGGR", ""},
		{"not said", nil, "", ""},
		{"said to be what there is not", []string{"BAYERPAT='RGBW'"}, "", "not one of RGGB, BGGR, GRBG, GBRG"},
	} {
		t.Run(c.name, func(t *testing.T) {
			frame := said(t, c.cards...)
			assert.Equal(t, c.want, frame.Header.Mosaic)
			if c.remark != "" {
				require.Len(t, frame.Remarks, 1)
				assert.Contains(t, frame.Remarks[0], c.remark)
			}
		})
	}
}
