package sky

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"duskhand/sky/decimal"
)

// ParseSite returns the site that a person wrote, or that a map, a receiver or another program wrote for them.
//
// Accepts: latitude then longitude as ParseAngle takes them, "-31.95, 141.5", "-31,95 141,5", "31°57'S 141°30'E"; with the letters
// N, S, E, W before or after, in either order, "S31.95 E141.5"; an elevation in metres as a third, "…, 210 m";
// ISO 6709, "-31.95+141.5/", "-3157+14130+210/"; a geo URI, "geo:-31.95,141.5,210"; a locator of the radio
// amateurs of six characters or more, "QF08sb", whose middle is taken.
// Sign:    latitude north +, longitude EAST +, or by the letters. Without letters the latitude stands first;
// nothing is exchanged by guess.
// Range:   latitude ±90°, longitude ±180°, elevation −500 to 9000 m; 0 m if none is written.
// Error:   says what was read and how to write it.
// Source:  ISO 6709:2008, annex H; RFC 5870; the locator as of IARU Region 1, Maidenhead 1980 (memory).
func ParseSite(text string) (Site, error) {
	plain := strings.ReplaceAll(strings.TrimSpace(text), "−", "-")
	read := readPair
	switch {
	case plain == "":
		return Site{}, fmt.Errorf("no site is written; %s", siteForms)
	case len(plain) > 4 && strings.EqualFold(plain[:4], "geo:"):
		read = readGeoURI
	case isoSite().MatchString(plain) || strings.HasSuffix(plain, "/"):
		read = readISOSite
	case locatorLike().MatchString(plain):
		read = readLocator
	}
	s, err := read(plain)
	if err == nil {
		err = s.inRange()
	}
	if err != nil {
		return Site{}, fmt.Errorf("%q is not a site: %w; %s", text, err, siteForms)
	}
	return s, nil
}

const siteForms = `write latitude and longitude like "-31.95, 141.5" or "31°57'S 141°30'E"`

// inRange refuses what no place on the Earth has.
func (s Site) inRange() error {
	const rounding = 1e-9 * Degree
	switch {
	case s.Latitude.Abs() > 90*Degree+rounding && s.Longitude.Abs() <= 90*Degree:
		return fmt.Errorf("the latitude %g° is beyond ±90°, and latitude stands first", round9(s.Latitude))
	case s.Latitude.Abs() > 90*Degree+rounding:
		return fmt.Errorf("the latitude %g° is beyond ±90°", round9(s.Latitude))
	case s.Longitude.Abs() > 180*Degree+rounding:
		return fmt.Errorf("the longitude %g° is beyond ±180°, east positive", round9(s.Longitude))
	case !(s.ElevationMetres >= -500 && s.ElevationMetres <= 9000):
		return fmt.Errorf("the elevation %g m is not from −500 to 9000 m", s.ElevationMetres)
	}
	return nil
}

// round9 drops what the passage through radians adds behind the digits that were written.
func round9(a Angle) float64 { return math.Round(a.Degrees()*1e9) / 1e9 }

// readPair reads two angles as people write them, and perhaps an elevation.
func readPair(text string) (Site, error) {
	if !strings.ContainsAny(text, "0123456789") {
		return Site{}, errors.New("it has no number, and places are not known by name")
	}
	if decimalComma(text) {
		if !twoDecimalCommas().MatchString(text) {
			return Site{}, errDecimalComma
		}
		text = decimal.Plain(text)
	}
	text, elevation, err := withoutElevation(text)
	if err != nil {
		return Site{}, err
	}
	first, second, err := twoAngles(text)
	if err != nil {
		return Site{}, err
	}
	s := Site{ElevationMetres: elevation}
	a, err := ParseAngle(withLetterLast(first))
	if err != nil {
		return Site{}, err
	}
	b, err := ParseAngle(withLetterLast(second))
	if err != nil {
		return Site{}, err
	}
	switch one, two := compassOf(first), compassOf(second); {
	case one == 0 && two == 0, one == latitudeLetter && two == longitudeLetter:
		s.Latitude, s.Longitude = a, b
	case one == longitudeLetter && two == latitudeLetter:
		s.Latitude, s.Longitude = b, a
	case one == two:
		return Site{}, fmt.Errorf("both numbers have the letter of a %s", one)
	default:
		return Site{}, errors.New("only one of the two numbers has a letter of N, S, E, W; give both or none")
	}
	return s, nil
}

var errDecimalComma = errors.New("a comma may stand between the numbers or for a decimal point here; write decimals with a point and a blank after the comma, or both numbers with decimals, as -31,95 141,50")

// twoAngles parts the text where the first angle ends: at a letter, a comma or semicolon, or the only blank.
func twoAngles(text string) (first, second string, err error) {
	if letters := letterPlaces(text); len(letters) > 2 {
		return "", "", errors.New("it has more than two letters of N, S, E, W")
	} else if len(letters) == 2 {
		cut := letters[0] + 1
		if letters[0] == 0 {
			cut = letters[1]
		}
		return trimmed(text[:cut]), trimmed(text[cut:]), nil
	}
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' })
	if len(parts) == 1 {
		parts = strings.Fields(text)
	}
	switch len(parts) {
	case 2:
		return trimmed(parts[0]), trimmed(parts[1]), nil
	case 1:
		return "", "", errors.New("it has one number, and a site needs latitude and longitude")
	}
	return "", "", errors.New("it can't be told where the latitude ends; put a comma after it")
}

// decimalComma tells whether a comma between digits may be meant for a decimal point: in "-31,95" it may, in
// "-31.95,141.5" it is not.
func decimalComma(text string) bool {
	return regexp.MustCompile(`\d,\d`).MatchString(text) && !strings.ContainsAny(text, `.°'"′″NSEW`)
}

// twoDecimalCommas matches what has a decimal comma in latitude and longitude alike, and so no other reading:
// "-31,95 141,5", with a semicolon or a comma and a blank between them too, and perhaps an elevation.
func twoDecimalCommas() *regexp.Regexp {
	return regexp.MustCompile(`^[+-]?\d+,\d+(?:\s*;\s*|,\s+|\s+)[+-]?\d+,\d+(?:[;,\s].*)?$`)
}

func trimmed(text string) string { return strings.Trim(text, " \t,;") }

func letterPlaces(text string) (places []int) {
	for i, r := range text {
		if strings.ContainsRune("NSEW", r) {
			places = append(places, i)
		}
	}
	return places
}

// compass says of which of the two angles a letter is.
type compass int

const (
	latitudeLetter compass = iota + 1
	longitudeLetter
)

func (c compass) String() string { return [...]string{"number", "latitude", "longitude"}[c] }

func compassOf(angle string) compass {
	switch {
	case strings.ContainsAny(angle, "NS"):
		return latitudeLetter
	case strings.ContainsAny(angle, "EW"):
		return longitudeLetter
	}
	return 0
}

// withLetterLast takes a letter from the head of an angle to its end, where ParseAngle wants it.
func withLetterLast(angle string) string {
	if angle != "" && strings.ContainsRune("NSEW", rune(angle[0])) {
		return trimmed(angle[1:]) + angle[:1]
	}
	return angle
}

// withoutElevation takes an elevation off the end: metres marked as such, or the third of three numbers.
func withoutElevation(text string) (rest string, metres float64, err error) {
	found := regexp.MustCompile(`^(.*\S)\s*[,;]\s*([+-]?\d+(?:\.\d+)?)\s*(m?)$`).FindStringSubmatch(text)
	if found == nil || found[3] == "" && !strings.ContainsAny(found[1], ",;") && len(letterPlaces(found[1])) != 2 {
		return text, 0, nil
	}
	metres, err = strconv.ParseFloat(found[2], 64)
	if err != nil {
		return "", 0, fmt.Errorf("the elevation %s is no number", found[2])
	}
	return found[1], metres, nil
}
