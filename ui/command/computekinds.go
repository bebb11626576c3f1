package command

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"duskhand/plan/kit"
)

// computeKind describes one kind of request. Help and README are made from these, and a test holds each
// field against what package ask takes and gives.
type computeKind struct {
	Ask     string
	About   string
	Request []computeField
	Answer  []computeField
	Example string // a request that is answered
}

// computeField is a field, or a group of fields as site and star are, with what it means.
type computeField struct{ Name, Meaning string }

// computeObjects describes the objects that several kinds of request share.
func computeObjects() []computeField {
	return []computeField{
		{"site", `{"lat_deg", "lon_deg", "elevation_m"}, elevation 0 if left out`},
		{"star", `{"ra_deg", "dec_deg", "pm_ra_mas_yr", "pm_dec_mas_yr"}, J2000; proper motion, with cos dec, 0 if left out`},
		{"axis", `{"tilt_deg", "toward_az_deg"}, the mount's azimuth axis; levelled if left out`},
		{"derotator", `{"min_deg", "max_deg", "angle_deg", "sense"}, its limits, where it stands, and 1 or -1`},
		{"utc", "an instant from 1950 to 2100"},
		{"dut1_s", "UT1 - UTC in seconds; 0 if left out"},
	}
}

func computeKinds() []computeKind {
	const site, star, at = `"site":{"lat_deg":-31.95,"lon_deg":141.5,"elevation_m":210}`,
		`"star":{"ra_deg":84.6765,"dec_deg":-69.1009}`, `"utc":"2026-12-05T12:44:00Z"`
	sight := []computeField{{"site", ""}, {"utc", ""}, {"star", ""}, {"dut1_s", ""}}
	evening := []computeField{{"site", ""}, {"date", "the evening's local date"}, {"dut1_s", ""}}
	return []computeKind{
		{Ask: "object", About: "a star or deep-sky object of the catalogue; what is not known is null",
			Request: []computeField{{"name", "any name or number, spelling forgiven in case and spaces"}},
			Answer: []computeField{{"id", "main designation, unless the request has an id"}, {"designation", "the same in any case"}, {"names", "all names"}, {"kind", "star or deep-sky"}, {"type", ""},
				{"constellation", "IAU abbreviation"}, {"ra_deg", "J2000"}, {"dec_deg", "J2000"}, {"pm_ra_mas_yr", "with cos dec"}, {"pm_dec_mas_yr", ""},
				{"mag", "V"}, {"major_arcmin", ""}, {"minor_arcmin", ""}, {"pa_deg", "of the major axis"}},
			Example: `{"ask":"object","name":"Tarantula Nebula"}`},
		{Ask: "place", About: "where a star stands",
			Request: sight,
			Answer: []computeField{{"alt_deg", "airless"}, {"az_deg", ""}, {"ra_date_deg", "apparent, of date, geocentric"}, {"dec_date_deg", ""},
				{"last_deg", "local apparent sidereal time"}, {"hour_angle_deg", "west +"}},
			Example: `{"ask":"place",` + site + `,` + at + `,` + star + `}`},
		{Ask: "refraction", About: "how much the air lifts",
			Request: []computeField{{"alt_deg", "airless"}, {"pressure_hpa", "at the observer"}, {"temp_c", ""}},
			Answer:  []computeField{{"refraction_arcmin", "to add"}},
			Example: `{"ask":"refraction","alt_deg":20,"pressure_hpa":988,"temp_c":18}`},
		{Ask: "rotation", About: "the field angle, from the pole's direction to that of the mount's axis",
			Request: append(sight[:4:4], computeField{"axis", ""}),
			Answer:  []computeField{{"chi_deg", "through east +"}, {"rate_deg_per_h", "its rate"}},
			Example: `{"ask":"rotation",` + site + `,` + at + `,` + star + `,"axis":{"tilt_deg":2.4,"toward_az_deg":210}}`},
		{Ask: "run", About: "how long the derotator lasts",
			Request: append(sight[:4:4], computeField{"axis", ""}, computeField{"derotator", ""}, computeField{"floor_alt_deg", "the run ends below this altitude"}),
			Answer: []computeField{{"limit", "min, max or none"}, {"seconds", "to it; to the floor or 12 h if none"}, {"reverses", "the rotation changes sense before then"},
				{"best_start_deg", "where the longest run from now begins"}, {"longest_s", "and how long it is"}},
			Example: `{"ask":"run",` + site + `,` + at + `,` + star + `,"derotator":{"min_deg":-16,"max_deg":16,"angle_deg":-16,"sense":1},"floor_alt_deg":25}`},
		{Ask: "twilight", About: "the Sun's night; UTC, null for what does not happen in the 24 h from local mean solar noon",
			Request: evening,
			Answer: []computeField{{"sunset", "Sun's centre at -0.8333"}, {"civil_dusk", "-6"}, {"nautical_dusk", "-12"}, {"astronomical_dusk", "-18"},
				{"astronomical_dawn", ""}, {"nautical_dawn", ""}, {"civil_dawn", ""}, {"sunrise", ""}},
			Example: `{"ask":"twilight",` + site + `,"date":"2026-12-05"}`},
		{Ask: "moon", About: "where the Moon's centre stands, topocentric",
			Request: []computeField{{"site", ""}, {"utc", ""}, {"dut1_s", ""}},
			Answer: []computeField{{"alt_deg", "airless"}, {"az_deg", ""}, {"ra_date_deg", ""}, {"dec_date_deg", ""},
				{"illuminated", "0 to 1"}, {"distance_km", ""}},
			Example: `{"ask":"moon",` + site + `,` + at + `}`},
		{Ask: "moon_events", About: "moonrise and moonset, the first of each in the same 24 h; UTC or null",
			Request: evening,
			Answer:  []computeField{{"rise", "upper limb, 34' refraction"}, {"set", ""}},
			Example: `{"ask":"moon_events",` + site + `,"date":"2026-12-05"}`},
		{Ask: "pair", About: "the errors to expect at a target after an alignment on two stars",
			Request: []computeField{{"stars", "[[alt, az], [alt, az]]"}, {"target", "[alt, az]"}, {"sigma_arcmin", "centring error of each star, per axis"}},
			Answer:  []computeField{{"separation_deg", "of the stars"}, {"pointing_arcmin", "rms, both axes together"}, {"roll_arcmin", "rms, about the line of sight"}},
			Example: `{"ask":"pair","stars":[[50,120],[40,210]],"target":[60,170],"sigma_arcmin":1}`},
		{Ask: "axis_fit", About: "the mount's azimuth axis from the raw axis readouts of two or more stars",
			Request: []computeField{{"site", ""}, {"utc", ""}, {"dut1_s", ""}, {"sights", `[{"star", "axis_alt_deg", "axis_az_deg", "utc" if it differs}, …]`}},
			Answer: []computeField{{"tilt_deg", ""}, {"toward_az_deg", ""}, {"azimuth_zero_deg", "readout azimuth = azimuth in the tilted frame + this"},
				{"residual_arcmin", "rms over the sights"}},
			Example: `{"ask":"axis_fit",` + site + `,` + at + `,"sights":[{"star":{"ra_deg":101.2872,"dec_deg":-16.7161},"axis_alt_deg":37.057,"axis_az_deg":104.956},` +
				`{"star":{"ra_deg":24.4285,"dec_deg":-57.2368},"axis_alt_deg":62.985,"axis_az_deg":224.214}]}`},
		{Ask: "overlap", About: "the field common to frames of one size, turned about their centre",
			Request: []computeField{{"width_deg", "of one frame, in the tangent plane"}, {"height_deg", ""}, {"angles_deg", "[camera angle of each frame, …]"}},
			Answer:  []computeField{{"fraction", "of one frame that is in all, 0 to 1"}},
			Example: `{"ask":"overlap","width_deg":2.8,"height_deg":1.9,"angles_deg":[102.5,134.5]}`},
		{Ask: "schedule", About: "the best schedule of a night for a target of a kit, as plan --json gives it; times UTC",
			Request: []computeField{{"kit_toml", "the text of a kit file"}, {"date", "the evening's"}, {"target", "the kit's first if left out"},
				{"axis", `{"tilt_deg", "toward_az_deg", "uncertainty_deg"}, the kit's if left out`}},
			Answer:  scheduleFields(),
			Example: scheduleExample()},
		{Ask: "advice", About: "what is to be done at an instant of a night of a kit, after what was said in it",
			Request: []computeField{{"kit_toml", "the text of a kit file"}, {"events", `[{"utc", "say"}, …], oldest first, in the words of tell`}, {"utc", "the instant, not before the last event"}},
			Answer:  adviceFields(),
			Example: adviceExample()},
	}
}

// adviceFields are those of an advice.
func adviceFields() (fields []computeField) {
	of := reflect.TypeFor[adviceAnswer]()
	for i := range of.NumField() {
		fields = append(fields, computeField{of.Field(i).Tag.Get("json"), of.Field(i).Tag.Get("doc")})
	}
	return fields
}

// adviceExample asks a quarter of an hour into the first run of the example's kit.
func adviceExample() string {
	text, err := json.Marshal(string(kit.ExampleTOML()))
	if err != nil {
		panic(err) // text is always written
	}
	return `{"ask":"advice","kit_toml":` + string(text) + `,"utc":"2026-12-05T11:25:00Z","events":[{"utc":"2026-12-05T11:08:00Z","say":"derotator-on -16"},{"utc":"2026-12-05T11:09:00Z","say":"subs-started"}]}`
}

// scheduleFields are those of a target of plan --json.
func scheduleFields() (fields []computeField) {
	for _, of := range []reflect.Type{reflect.TypeFor[targetJSON](), reflect.TypeFor[scheduleAnswer]()} {
		for i := range of.NumField() {
			name := of.Field(i).Tag.Get("json")
			if doc := of.Field(i).Tag.Get("doc"); doc != "" && name != "id" {
				fields = append(fields, computeField{name, doc})
			}
		}
	}
	return fields
}

// scheduleExample asks for the example's night.
func scheduleExample() string {
	text, err := json.Marshal(string(kit.ExampleTOML()))
	if err != nil {
		panic(err) // text is always written
	}
	return `{"ask":"schedule","kit_toml":` + string(text) + `,"date":"2026-12-05"}`
}

// kindsHelp lists what can be asked, for the help.
func kindsHelp() string {
	var out strings.Builder
	out.WriteString("What can be asked:\n")
	for _, kind := range computeKinds() {
		fmt.Fprintf(&out, "\n  %s: %s\n    request  %s\n    answer   %s\n", kind.Ask, kind.About, fieldsText(kind.Request), fieldsText(kind.Answer))
	}
	out.WriteString("\nShared fields:\n")
	for _, object := range computeObjects() {
		fmt.Fprintf(&out, "  %-10s %s\n", object.Name, object.Meaning)
	}
	return strings.TrimRight(out.String(), "\n")
}

func fieldsText(fields []computeField) string {
	var parts []string
	for _, f := range fields {
		text := f.Name
		if f.Meaning != "" {
			text += " (" + f.Meaning + ")"
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}
