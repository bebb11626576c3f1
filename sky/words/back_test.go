package words_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
	"duskhand/sky/words"
)

// What is printed is read back here by a reader of its own, as a person would: so no unit is left out and nothing is
// off by sixty.

var (
	lengthParts = regexp.MustCompile(`^(?:(\d+) h )?(?:(\d+) min)?(?: ?(\d+) s)?$`)
	clockDigits = regexp.MustCompile(`^(\d+):(\d\d)$`)
	hourDigits  = regexp.MustCompile(`^(\d+)h(\d\d)$`)
)

func whole(t require.TestingT, text string) time.Duration {
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err)
	return time.Duration(n)
}

func lengthOf(t require.TestingT, text string) time.Duration {
	parts := lengthParts.FindStringSubmatch(text)
	require.NotNil(t, parts, "%q is a length of time", text)
	return whole(t, parts[1])*time.Hour + whole(t, parts[2])*time.Minute + whole(t, parts[3])*time.Second
}

// number reads a printed number, whose minus is the real one.
func number(t require.TestingT, text string) float64 {
	x, err := strconv.ParseFloat(strings.TrimPrefix(strings.ReplaceAll(text, "−", "-"), "+"), 64)
	require.NoError(t, err, "%q is a number", text)
	return x
}

func TestLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.OneOf(rapid.Int64Range(0, 2e11), rapid.Int64Range(0, 1e14)).Draw(t, "ns"))
		nearest, step := lengthOf(t, words.Lasting(d)), time.Minute
		if nearest < 100*time.Second {
			step = time.Second
		}
		require.LessOrEqual(t, (nearest - d).Abs(), step/2)
		atMost := lengthOf(t, words.LastingAtMost(d))
		require.LessOrEqual(t, atMost, d, "nobody counts on more than there is")
		require.Less(t, d-atMost, time.Minute)
		exact := lengthOf(t, words.ToSecond(d))
		require.LessOrEqual(t, (exact - d).Abs(), 30*time.Second)
		if d < 59*time.Minute {
			require.LessOrEqual(t, (exact - d).Abs(), time.Second/2)
		}
		for _, text := range []string{words.Lasting(d), words.LastingAtMost(d), words.ToSecond(d)} {
			require.NotRegexp(t, `\b(6\d|[7-9]\d) min`, strings.TrimPrefix(text, "99 min"), "no sixty minutes")
		}
	})
}

func TestCountdownsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.OneOf(rapid.Int64Range(-1e12, 5e12), rapid.Int64Range(0, 1e14)).Draw(t, "ns"))
		digits, unit := words.Countdown(d)
		left := max(0, d)
		if parts := clockDigits.FindStringSubmatch(digits); parts != nil {
			require.Equal(t, "minutes and seconds", unit)
			require.Equal(t, left.Truncate(time.Second), whole(t, parts[1])*time.Minute+whole(t, parts[2])*time.Second)
			require.Less(t, left, time.Hour)
			return
		}
		parts := hourDigits.FindStringSubmatch(digits)
		require.NotNil(t, parts, digits)
		require.Equal(t, "hours and minutes", unit)
		require.Equal(t, left.Truncate(time.Minute), whole(t, parts[1])*time.Hour+whole(t, parts[2])*time.Minute)
	})
}

func TestBoundsOfExposuresReadBack(t *testing.T) {
	of := func(t require.TestingT, text string) time.Duration {
		if s, ok := strings.CutSuffix(text, " s"); ok {
			return time.Duration(math.Round(number(t, s) * 1e9))
		}
		return lengthOf(t, text)
	}
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.OneOf(rapid.Int64Range(1e8, 2e10), rapid.Int64Range(1e9, 5e12)).Draw(t, "ns"))
		most, least := of(t, words.ExposureAtMost(d)), of(t, words.ExposureAtLeast(d))
		require.LessOrEqual(t, most, d)
		require.GreaterOrEqual(t, least, d)
		require.LessOrEqual(t, least-most, time.Minute)
		if d < 10*time.Minute-time.Second {
			require.LessOrEqual(t, least-most, time.Second)
		}
	})
}

func TestCoordinatesReadBack(t *testing.T) {
	numbers := regexp.MustCompile(`\d+(?:\.\d+)?`)
	rapid.Check(t, func(t *rapid.T) {
		degrees := rapid.Float64Range(-90, 90).Draw(t, "degrees")
		a := sky.Angle(degrees) * sky.Degree
		for name, sides := range map[string]words.Sides{"latitude": words.Latitudes(), "longitude": words.Longitudes(),
			"in words": words.LatitudesInWords(), "longitude in words": words.LongitudesInWords()} {
			for text, within := range map[string]float64{sides.ToArcminute(a): 0.5 / 60, sides.ToArcsecond(a): 0.5 / 3600,
				sides.DecimalMinutes(a): 0.0005 / 60, sides.Decimal(a, 4): 0.00005} {
				got, unit := 0.0, 1.0
				for _, part := range numbers.FindAllString(text, -1) {
					value := number(t, part)
					require.True(t, unit == 1 || value < 60, "%s: %s has no sixties", name, text)
					got, unit = got+value*unit, unit/60
				}
				side := sides.Positive
				if degrees < 0 {
					got, side = -got, sides.Negative
				}
				require.InDelta(t, degrees, got, within*(1+1e-9), "%s: %s", name, text)
				require.True(t, strings.HasSuffix(text, " "+side), "%s: %s", name, text)
			}
		}
	})
}

// What words prints, sky reads.
func TestPlacesAreReadBackBySky(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ra := sky.Angle(rapid.Float64Range(0, 360).Draw(t, "right ascension")) * sky.Degree
		dec := sky.Angle(rapid.Float64Range(-90, 90).Draw(t, "declination")) * sky.Degree
		gotRA, err := sky.ParseRightAscension(words.RightAscension(ra))
		require.NoError(t, err)
		require.LessOrEqual(t, (gotRA - ra).Signed().Abs().Arcseconds(), 7.5+1e-6, "half a second of time")
		gotDec, err := sky.ParseAngle(words.Declination(dec))
		require.NoError(t, err)
		require.LessOrEqual(t, (gotDec - dec).Abs().Arcseconds(), 0.5+1e-6)
	})
}

func TestNumbersReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e4, 1e4).Draw(t, "x")
		decimals := rapid.IntRange(0, 4).Draw(t, "decimals")
		half := 0.5*math.Pow10(-decimals) + 1e-9
		require.InDelta(t, x, number(t, words.Number(x, decimals)), half)
		require.InDelta(t, x, number(t, words.SignedNumber(x, decimals)), half)
		require.InDelta(t, x, number(t, words.Figure(x, decimals)), half)
		require.NotRegexp(t, `\.\d*0$`, words.Figure(x, decimals), "no more digits than it has")
		require.NotContains(t, words.Number(x, decimals), "-", "a hyphen is no minus")
		require.NotRegexp(t, `^−0(\.0*)?$`, words.Number(x, decimals), "nothing below nothing")
		require.InDelta(t, 100*x, number(t, strings.TrimSuffix(words.Percent(x, decimals), " %")), half)
		require.InDelta(t, x, number(t, strings.TrimSuffix(words.Celsius(x, decimals), " °C")), half)
		direction := number(t, strings.TrimSuffix(words.Direction(sky.Angle(x)*sky.Degree, decimals), "°"))
		require.True(t, direction >= 0 && direction < 360)
		require.InDelta(t, 0, (sky.Angle(direction-x) * sky.Degree).Signed().Degrees(), half)
		rate := sky.Rate(x) * sky.DegreePerHour
		require.InDelta(t, math.Abs(x), number(t, strings.TrimSuffix(words.AnHour(rate, decimals), "° an hour")), half)
		require.InDelta(t, x, number(t, strings.TrimSuffix(words.SignedAnHour(rate, decimals), "° an hour")), half)
		require.Equal(t, strings.Replace(words.AnHour(rate, decimals), " an hour", "/h", 1), words.AnHourBrief(rate, decimals))
	})
	assert.Equal(t, "17.30° ± 0.02° an hour", words.AnHourWithin(-17.3*sky.DegreePerHour, 0.02*sky.DegreePerHour, 2))
}

// The compass has sixteen points of 22.5°, each named by the main ones that it lies between.
func TestTheCompass(t *testing.T) {
	for i, letters := range []string{"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"} {
		middle := 22.5 * float64(i)
		for _, off := range []float64{-11.2, 0, 11.2, 360, -360} {
			a := sky.Angle(middle+off) * sky.Degree
			assert.Equal(t, letters, words.CompassLetters(a), "%v", a)
			assert.Len(t, strings.Split(words.Compass(a), "-"), len(letters))
		}
	}
}

func TestTheClockOnTheWallReadsBack(t *testing.T) {
	zones := []*time.Location{nil, time.UTC, time.FixedZone("ACDT", 10*3600+1800), time.FixedZone("", -3*3600-1800)}
	rapid.Check(t, func(t *rapid.T) {
		at := time.Unix(0, rapid.Int64Range(1.5e18, 2.2e18).Draw(t, "ns")).UTC()
		zone := rapid.SampledFrom(zones).Draw(t, "zone")
		read := zone
		if read == nil {
			read = time.UTC
		}
		minute, err := time.ParseInLocation("2006-01-02 15:04", words.DateMinute(at, zone), read)
		require.NoError(t, err)
		require.False(t, minute.After(at), "cut down")
		require.Less(t, at.Sub(minute), time.Minute)
		second, err := time.ParseInLocation("2006-01-02 15:04:05", words.DateSecond(at, zone), read)
		require.NoError(t, err)
		require.Equal(t, at.Truncate(time.Second).Unix(), second.Unix())
		require.Equal(t, words.DateMinute(at, zone)[11:], words.Minute(at, zone))
		require.Equal(t, words.DateSecond(at, zone)[11:], words.Second(at, zone))
		opens := words.MinuteFrom(at, zone)
		if at.Equal(at.Truncate(time.Minute)) {
			require.Equal(t, words.Minute(at, zone), opens)
		} else {
			require.Equal(t, words.Minute(at.Add(time.Minute), zone), opens, "what can only begin goes up")
		}
	})
}
