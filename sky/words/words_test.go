package words_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
	"duskhand/sky/words"
)

func TestLengthsOfTime(t *testing.T) {
	const ms = time.Millisecond
	for _, c := range []struct {
		name                   string
		d                      time.Duration
		lasting, atMost, exact string
	}{
		{"nothing", 0, "0 s", "0 s", "0 s"},
		{"half a second goes up, and down where it is all there is", 45500 * ms, "46 s", "45 s", "46 s"},
		{"below 100 s seconds say more than minutes", 99 * time.Second, "99 s", "99 s", "1 min 39 s"},
		{"what rounds to 100 s is told in minutes", 99600 * ms, "2 min", "99 s", "1 min 40 s"},
		{"minutes", 16*time.Minute + 29*time.Second, "16 min", "16 min", "16 min 29 s"},
		{"no sixty minutes", 59*time.Minute + 40*time.Second, "1 h 00 min", "59 min", "59 min 40 s"},
		{"no sixty seconds", 3*time.Minute - 300*ms, "3 min", "2 min", "3 min 00 s"},
		{"a full hour has its minutes", 6 * time.Hour, "6 h 00 min", "6 h 00 min", "6 h 00 min"},
		{"two digits of minutes", 5*time.Hour + 2*time.Minute, "5 h 02 min", "5 h 02 min", "5 h 02 min"},
		{"longer than a day", 31 * time.Hour, "31 h 00 min", "31 h 00 min", "31 h 00 min"},
	} {
		assert.Equal(t, c.lasting, words.Lasting(c.d), c.name)
		assert.Equal(t, c.lasting, words.Lasting(-c.d), "%s: without its sign", c.name)
		assert.Equal(t, c.atMost, words.LastingAtMost(c.d), c.name)
		assert.Equal(t, c.exact, words.ToSecond(c.d), c.name)
	}
	assert.Equal(t, "5h02", words.Narrow(5*time.Hour+2*time.Minute+29*time.Second))
	assert.Equal(t, "0h00", words.Narrow(0))
}

func TestTheCountdownIsCutDown(t *testing.T) {
	for left, want := range map[time.Duration][2]string{
		time.Hour:                                   {"1h00", "hours and minutes"},
		time.Hour - time.Nanosecond:                 {"59:59", "minutes and seconds"},
		4*time.Hour + 29*time.Minute + 59e9:         {"4h29", "hours and minutes"},
		7*time.Second + 999*time.Millisecond:        {"0:07", "minutes and seconds"},
		-5 * time.Minute:                            {"0:00", "minutes and seconds"},
		16*time.Minute + 27*time.Second:             {"16:27", "minutes and seconds"},
		23*time.Hour + 59*time.Minute + time.Second: {"23h59", "hours and minutes"},
	} {
		digits, unit := words.Countdown(left)
		assert.Equal(t, want, [2]string{digits, unit}, left)
	}
}

func TestExposures(t *testing.T) {
	for d, want := range map[time.Duration]string{time.Minute: "60 s", 500 * time.Millisecond: "0.5 s",
		time.Second / 4000: "0 s", 20 * time.Millisecond: "0.02 s", 10 * time.Minute: "600 s"} {
		assert.Equal(t, want, words.Exposure(d), d)
	}
	for _, c := range []struct {
		d               time.Duration
		atMost, atLeast string
	}{
		{4520 * time.Millisecond, "4.5 s", "4.6 s"},
		{9950 * time.Millisecond, "9.9 s", "10 s"},
		{30*time.Second + 1, "30 s", "31 s"},
		{9*time.Minute + 59*time.Second + 1, "599 s", "10 min"},
		{12*time.Minute + 20*time.Second, "12 min", "13 min"},
		{2 * time.Hour, "2 h 00 min", "2 h 00 min"},
	} {
		assert.Equal(t, c.atMost, words.ExposureAtMost(c.d), c.d)
		assert.Equal(t, c.atLeast, words.ExposureAtLeast(c.d), c.d)
	}
}

func zone(t *testing.T, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}

func TestInstantsAreCutDownAndGoUp(t *testing.T) {
	adelaide := zone(t, "Australia/Adelaide")
	at := time.Date(2026, 12, 5, 14, 4, 46, 0, time.UTC) // 00:34:46 in Adelaide, UTC+10:30 in summer (IANA tz)
	assert.Equal(t, "00:34", words.Minute(at, adelaide))
	assert.Equal(t, "00:35", words.MinuteFrom(at, adelaide))
	assert.Equal(t, "00:34:46", words.Second(at, adelaide))
	assert.Equal(t, "00:34 ACDT", words.MinuteWithZone(at, adelaide))
	assert.Equal(t, "00:34:46 ACDT", words.SecondWithZone(at, adelaide))
	assert.Equal(t, "2026-12-06 00:34", words.DateMinute(at, adelaide))
	assert.Equal(t, "2026-12-06 00:34:46", words.DateSecond(at, adelaide))
	assert.Equal(t, "14:04 UTC", words.MinuteUTC(at))
	assert.Equal(t, "14:04", words.Minute(at, nil), "a kit without a zone")
	whole := at.Truncate(time.Minute)
	assert.Equal(t, "00:34", words.MinuteFrom(whole, adelaide), "a full minute stays")
	assert.Equal(t, "00:35", words.MinuteFrom(whole.Add(1), adelaide))
}

func TestTheClockOnTheWallNamesItsZoneWhereItChanges(t *testing.T) {
	berlin := zone(t, "Europe/Berlin")
	from, to := time.Date(2026, 10, 24, 18, 0, 0, 0, time.UTC), time.Date(2026, 10, 25, 5, 0, 0, 0, time.UTC)
	wall := words.WallOf(from, to, berlin) // summer time ends on 25 October at 01:00 UTC (Directive 2000/84/EC)
	assert.Equal(t, "02:30 CEST", wall.Minute(time.Date(2026, 10, 25, 0, 30, 0, 0, time.UTC)))
	assert.Equal(t, "02:30 CET", wall.Minute(time.Date(2026, 10, 25, 1, 30, 0, 0, time.UTC)))
	assert.Equal(t, "02:00 CET", wall.MinuteFrom(time.Date(2026, 10, 25, 0, 59, 30, 0, time.UTC)), "the zone of what is told")
	assert.Equal(t, "times CEST (UTC+02:00) until 01:00 UTC, then CET (UTC+01:00)", wall.Heading())
	plain := words.WallOf(from, from.Add(time.Hour), berlin)
	assert.Equal(t, "20:00:00", plain.Second(from))
	assert.Equal(t, "times CEST (UTC+02:00)", plain.Heading())
	assert.Equal(t, "times UTC", words.WallOf(from, to, time.UTC).Heading())
	assert.Equal(t, "times UTC-03:00", words.WallOf(from, to, zone(t, "America/Sao_Paulo")).Heading(), "a zone without a name")
}

func TestAngles(t *testing.T) {
	for _, c := range []struct {
		degrees                          float64
		tenths, asRead, signed, signed10 string
		direction                        string
	}{
		{0, "0.0°", "0°", "0°", "+0.0°", "0.0°"},
		{-0.04, "0.0°", "0°", "0°", "+0.0°", "0.0°"},
		{2.5, "2.5°", "2.5°", "+2.5°", "+2.5°", "2.5°"},
		{-16, "−16.0°", "−16°", "−16°", "−16.0°", "344.0°"},
		{359.97, "360.0°", "360°", "+360°", "+360.0°", "0.0°"},
		{170, "170.0°", "170°", "+170°", "+170.0°", "170.0°"},
	} {
		a := sky.Angle(c.degrees) * sky.Degree
		assert.Equal(t, c.tenths, words.Degrees(a, 1), c.degrees)
		assert.Equal(t, c.asRead, words.DegreesAsRead(a), c.degrees)
		assert.Equal(t, c.signed, words.Signed(a), c.degrees)
		assert.Equal(t, c.signed10, words.SignedTenths(a), c.degrees)
		assert.Equal(t, c.direction, words.Direction(a, 1), c.degrees)
	}
	assert.Equal(t, "0°", words.Direction(359.6*sky.Degree, 0))
	assert.Equal(t, "1.2′", words.Arcminutes(1.23*sky.Arcminute, 1))
	assert.Equal(t, "2.35″", words.Arcseconds(2.351*sky.Arcsecond, 2))
	assert.Equal(t, "17.3° an hour", words.AnHour(-17.3*sky.DegreePerHour, 1))
	assert.Equal(t, "17.3°/h", words.AnHourBrief(17.3*sky.DegreePerHour, 1))
	for size, want := range map[sky.Angle]string{2.5 * sky.Degree: "2.5°", 41 * sky.Arcminute: "41′", 9.96 * sky.Arcminute: "10.0′"} {
		assert.Equal(t, want, words.Size(size))
	}
}

func TestSidesOfTheSky(t *testing.T) {
	for degrees, want := range map[sky.Angle][2]string{0: {"north", "N"}, 11.2: {"north", "N"}, 11.3: {"north-north-east", "NNE"},
		152: {"south-south-east", "SSE"}, 348.8: {"north", "N"}, -90: {"west", "W"}} {
		assert.Equal(t, want, [2]string{words.Compass(degrees * sky.Degree), words.CompassLetters(degrees * sky.Degree)}, degrees)
	}
}

func TestCoordinates(t *testing.T) {
	south, east := -31.95*sky.Degree, 141.5*sky.Degree
	assert.Equal(t, "31°57′ south", words.LatitudesInWords().ToArcminute(south))
	assert.Equal(t, "8°30′ west", words.LongitudesInWords().ToArcminute(-8.5*sky.Degree))
	assert.Equal(t, "31°57′00″ S", words.Latitudes().ToArcsecond(south))
	assert.Equal(t, "008°30′00″ E", words.Longitudes().ToArcsecond(8.5*sky.Degree))
	assert.Equal(t, "31°57.000′ S", words.Latitudes().DecimalMinutes(south))
	assert.Equal(t, "141.50000° E", words.Longitudes().Decimal(east, 5))
	// NGC 2070, 05h38m42s −69°06′03″ (Lauberts 1982, as the catalogue has it).
	assert.Equal(t, "05h38m42s", words.RightAscension(84.675*sky.Degree))
	assert.Equal(t, "−69°06′03″", words.Declination(-(69+6/60.+3/3600.)*sky.Degree))
	assert.Equal(t, "00h00m00s", words.RightAscension(359.9999*sky.Degree), "no 24 h")
	assert.Equal(t, "+00°00′00″", words.Declination(-0.00001*sky.Degree), "no negative nought")
}

func TestNumbers(t *testing.T) {
	assert.Equal(t, "−2.50", words.Number(-2.5, 2))
	assert.Equal(t, "+180", words.SignedNumber(180, 0))
	assert.Equal(t, "−240", words.SignedNumber(-240, 0))
	assert.Equal(t, "0", words.SignedNumber(-0.2, 0))
	assert.Equal(t, "0.0", words.Number(-0.04, 1))
	assert.Equal(t, "100", words.Figure(100, 1), "no nought of the number itself is taken")
	assert.Equal(t, "−7.25", words.Figure(-7.25, 3))
	assert.Equal(t, "59 %", words.Percent(0.594, 0))
	assert.Equal(t, "0.4 %", words.Percent(0.004, 1))
	assert.Equal(t, "−7.0 °C", words.Celsius(-7, 1))
	assert.Equal(t, "−7 °C", words.CelsiusAsRead(-7))
	assert.Equal(t, "11.25 °C", words.CelsiusAsRead(11.25))
	assert.Equal(t, "5 K", words.Kelvin(5))
}

func TestCountsAndLists(t *testing.T) {
	assert.Equal(t, "1 run", words.Count(1, "run"))
	assert.Equal(t, "0 runs", words.Count(0, "run"))
	assert.Equal(t, "", words.List([]string(nil)))
	assert.Equal(t, "a", words.List([]string{"a"}))
	assert.Equal(t, "1 and 3", words.List([]int{1, 3}))
	assert.Equal(t, "a, b and c", words.List([]string{"a", "b", "c"}))
	assert.Equal(t, "a, b or c", words.Either([]string{"a", "b", "c"}))
}

// What is cut down is never more than there is, and what goes up never less: over all lengths.
func TestBoundsAreBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.Int64Range(0, int64(20*time.Hour)).Draw(t, "d"))
		assert.LessOrEqual(t, read(t, words.LastingAtMost(d)), d)
		assert.LessOrEqual(t, read(t, words.ExposureAtMost(d)), d)
		assert.GreaterOrEqual(t, read(t, words.ExposureAtLeast(d)), d)
		assert.InDelta(t, float64(d), float64(read(t, words.Lasting(d))), float64(30*time.Second), "half a minute at most")
	})
}

// read takes the spaces out, which gives Go's own notation but for the name of the minute.
func read(t *rapid.T, text string) time.Duration {
	var total time.Duration
	var number string
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9' || r == '.':
			number += string(r)
		case r == 'h' || r == 'm' || r == 's':
			part, err := time.ParseDuration(number + string(r))
			require.NoError(t, err)
			total, number = total+part, ""
		}
	}
	return total
}
