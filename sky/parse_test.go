package sky_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/sky"
)

// Expected values below are the definition, whole + minutes/60 + seconds/3600, done by hand; the
// tolerance of 1e-9° is a hundred times the rounding of a float64 at 360° and far below any use.
const writtenWithin = 1e-9

func TestParseAngleReadsWhatPeopleWrite(t *testing.T) {
	cases := []struct {
		name, text  string
		wantDegrees float64
	}{
		{"a decimal south", "-31.95", -31.95},
		{"a decimal with a typographic minus", "−31.95", -31.95},
		{"a decimal comma", "−31,95", -31.95},
		{"minutes with a decimal comma", `31°57,0'S`, -31.95},
		{"a decimal with a plus", "+141.5", 141.5},
		{"degrees, minutes, seconds and south", `31°57'00"S`, -31.95},
		{"the same north", `31°57'00"N`, 31.95},
		{"primes", "31° 57′ 00″ S", -31.95},
		{"two straight primes for seconds", "31°57'00''N", 31.95},
		{"letters as marks", "31d57m00s", 31.95},
		{"letters as marks and a small s before a capital one", "31d57m00sS", -31.95},
		{"deg as mark", "31.95 deg", 31.95},
		{"spaces", "-31 57 00", -31.95},
		{"colons", "141:30:00", 141.5},
		{"degrees and minutes only, east", "141 30 E", 141.5},
		{"west of Greenwich", "70°24.3'W", -70.405},
		{"south of the equator by less than a degree", "-0 30 00", -0.5},
		{"a fraction of a second", "-69 06 02.9", -69.10080555555556},
		{"seconds without minutes", `12°36"`, 12.01},
		{"minutes alone", "30'", 0.5},
		{"nought", "0", 0},
		{"blanks around it", "  -31.95\t", -31.95},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := sky.ParseAngle(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.wantDegrees, got.Degrees(), writtenWithin, "%q in degrees", c.text)
		})
	}
}

func TestParseAngleRefusesWhatItWouldHaveToGuess(t *testing.T) {
	cases := []struct{ name, text, says string }{
		{"nothing", "", "nothing is written"},
		{"a sign alone", "-", "nothing is written"},
		{"a word", "south", "a number is expected"},
		{"two decimal commas", "31,95,2", "is not a number"},
		{"a sign and a letter", "-31.95 S", "both a sign and S"},
		{"sixty minutes", "31 60 00", "60 is not below 60"},
		{"a fraction before the last number", "31.5 30", "only the last number"},
		{"four numbers", "1 2 3 4", "in this order"},
		{"seconds before minutes", `1" 2'`, "in this order"},
		{"hours", "5h38m", "h marks hours"},
		{"a colon and nothing after it", "31:", "a number is expected"},
		{"two points", "3.1.4", "is not a number"},
		{"not a number", "NaN", "a number is expected"},
		{"infinity", "Inf", "a number is expected"},
		{"two signs", "--3", "a number is expected"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := sky.ParseAngle(c.text)
			require.Error(t, err, "%q", c.text)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

func TestParseRightAscensionReadsHoursAndMarkedDegrees(t *testing.T) {
	cases := []struct {
		name, text  string
		wantDegrees float64
	}{
		{"hours, minutes, seconds", "05h38m42s", 84.675}, // 15 × (5 + 38/60 + 42/3600)
		{"capital marks", "05H38M42S", 84.675},
		{"spaces and a fraction", "05 38 42.4", 84.67666666666667},
		{"colons", "05:38:42", 84.675},
		{"hours and minutes", "3h33.6m", 53.4},
		{"decimal hours", "5.645", 84.675},
		{"degrees marked by the sign", "84.675°", 84.675},
		{"degrees marked by the word", "84.675 deg", 84.675},
		{"the last second before 24 h", "23:59:59", 359.99583333333334},
		{"nought", "0h", 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := sky.ParseRightAscension(c.text)
			require.NoError(t, err)
			assert.InDelta(t, c.wantDegrees, got.Degrees(), writtenWithin, "%q in degrees", c.text)
		})
	}
}

func TestParseRightAscensionRefusesTheRest(t *testing.T) {
	cases := []struct{ name, text, says string }{
		{"24 hours", "24h", "not below 24 h"},
		{"degrees without a mark", "84.675", "not below 24 h"},
		{"a full turn of degrees", "360°", "not below 24 h"},
		{"degrees, minutes and seconds", "84°40'30\"", "one decimal number"},
		{"a negative one", "-5h", "a number is expected"},
		{"nothing", " ", "nothing is written"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := sky.ParseRightAscension(c.text)
			require.Error(t, err, "%q", c.text)
			assert.Contains(t, err.Error(), c.says)
		})
	}
}

func TestParseAngleTakesBackWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		arcseconds := rapid.IntRange(0, 360*3600-1).Draw(t, "arcseconds")
		letter := rapid.SampledFrom([]string{"N", "S", "E", "W"}).Draw(t, "letter")
		text := fmt.Sprintf(`%d°%02d'%02d"%s`, arcseconds/3600, arcseconds/60%60, arcseconds%60, letter)
		want := float64(arcseconds) / 3600
		if letter == "S" || letter == "W" {
			want = -want
		}
		got, err := sky.ParseAngle(text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		if diff := got.Degrees() - want; diff > writtenWithin || diff < -writtenWithin {
			t.Fatalf("%s: got %v°, want %v°, difference %g°", text, got.Degrees(), want, diff)
		}
	})
}

func TestParsersNeverYieldWhatIsNoNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+]?[0-9.]{0,400}[dhms°'":NSEW ]{0,3}[0-9.]{0,4}`)).Draw(t, "text")
		for _, parse := range []func(string) (sky.Angle, error){sky.ParseAngle, sky.ParseRightAscension} {
			if a, err := parse(text); err == nil && !(a.Abs() < 1e300) {
				t.Fatalf("%q: got %v", text, a)
			}
		}
	})
}
