package sky

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// The ways in which programs write a site: geo URI, ISO 6709, locator.

// readGeoURI reads geo:latitude,longitude[,metres][;parameter…], RFC 5870, section 3.3.
func readGeoURI(text string) (Site, error) {
	place, parameters, _ := strings.Cut(text[len("geo:"):], ";")
	for _, p := range strings.Split(parameters, ";") {
		if name, value, _ := strings.Cut(p, "="); strings.EqualFold(name, "crs") && !strings.EqualFold(value, "wgs84") {
			return Site{}, fmt.Errorf("its frame is %s, and only wgs84 is known", value)
		}
	}
	numbers := strings.Split(place, ",")
	if len(numbers) < 2 || len(numbers) > 3 {
		return Site{}, errors.New("a geo URI has a latitude, a longitude and perhaps an elevation, with commas between")
	}
	var values [3]float64
	for i, number := range numbers {
		if !regexp.MustCompile(`^-?\d+(\.\d+)?$`).MatchString(number) {
			return Site{}, fmt.Errorf("%q is no number as a geo URI has them, decimal and without a plus", number)
		}
		var err error
		if values[i], err = strconv.ParseFloat(number, 64); err != nil {
			return Site{}, fmt.Errorf("%q is no number", number)
		}
	}
	return Site{Latitude: Angle(values[0]) * Degree, Longitude: Angle(values[1]) * Degree, ElevationMetres: values[2]}, nil
}

// isoSite is the string form of ISO 6709, annex H; its closing stroke is often left out.
func isoSite() *regexp.Regexp {
	return regexp.MustCompile(`^([+-])(\d+)(\.\d+)?([+-])(\d+)(\.\d+)?([+-]\d+(?:\.\d+)?)?(?:CRS([^/]*))?/?$`)
}

// readISOSite reads ±DD.D±DDD.D, ±DDMM.M±DDDMM.M or ±DDMMSS.S±DDDMMSS.S, with an elevation or without.
func readISOSite(text string) (s Site, err error) {
	found := isoSite().FindStringSubmatch(text)
	if found == nil {
		return Site{}, errors.New(`ISO 6709 is written like -31.95+141.5/, -3157+14130/ or -3157+14130+210/`)
	}
	if crs := strings.ReplaceAll(found[8], "_", ""); crs != "" && !strings.EqualFold(crs, "wgs84") {
		return Site{}, fmt.Errorf("its frame is %s, and only WGS_84 is known", found[8])
	}
	if s.Latitude, err = isoAngle("latitude", 2, found[1:4]); err != nil {
		return Site{}, err
	}
	if s.Longitude, err = isoAngle("longitude", 3, found[4:7]); err != nil {
		return Site{}, err
	}
	if found[7] != "" {
		if s.ElevationMetres, err = strconv.ParseFloat(found[7], 64); err != nil {
			return Site{}, fmt.Errorf("the elevation %s is no number", found[7])
		}
	}
	return s, nil
}

// isoAngle reads sign, digits and fraction of one angle. How many digits stand before the point says whether
// they are degrees, degrees and minutes, or degrees, minutes and seconds; degrees have a fixed number of them.
func isoAngle(name string, degreeDigits int, written []string) (Angle, error) {
	sign, digits, fraction := written[0], written[1], written[2]
	extra := len(digits) - degreeDigits
	if extra != 0 && extra != 2 && extra != 4 {
		return 0, fmt.Errorf("in ISO 6709 a %s has %d digits of degrees, then none, two or four more, and %s%s has %d in all",
			name, degreeDigits, sign, digits, len(digits))
	}
	parts := []string{digits[:degreeDigits]}
	for at := degreeDigits; at < len(digits); at += 2 {
		parts = append(parts, digits[at:at+2])
	}
	return ParseAngle(sign + strings.Join(parts, ":") + fraction)
}

// locatorLike is a locator of any length: two letters, two digits, two letters, two digits …
func locatorLike() *regexp.Regexp {
	return regexp.MustCompile(`^(?i)[a-r]{2}\d{2}(?:[a-x]{2}(?:\d{2}(?:[a-x]{2})?)?)?$`)
}

// readLocator returns the middle of a locator's field. Pairs of longitude and latitude part the field before in
// 18, 10, 24, 10 and 24, from −180° and −90° on.
func readLocator(text string) (Site, error) {
	const shortest = 6
	if len(text) < shortest {
		return Site{}, errors.New("as a locator it names a field of 2° by 1°; give six characters or more")
	}
	longitude, latitude := -180*Degree, -90*Degree
	width, height := 360*Degree, 180*Degree
	for i, parts := range [...]int{18, 10, 24, 10, 24} {
		if 2*i >= len(text) {
			break
		}
		width, height = width/Angle(parts), height/Angle(parts)
		longitude += width * Angle(locatorDigit(text[2*i]))
		latitude += height * Angle(locatorDigit(text[2*i+1]))
	}
	return Site{Latitude: latitude + height/2, Longitude: longitude + width/2}, nil
}

func locatorDigit(c byte) int {
	switch {
	case c <= '9':
		return int(c - '0')
	case c >= 'a':
		return int(c - 'a')
	}
	return int(c - 'A')
}
