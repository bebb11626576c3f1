package command

import (
	"fmt"
	"reflect"
	"strings"
)

// document is what plan --json prints. Each field's doc is its line in the help: one table for both.
type document struct {
	Example   bool          `json:"example" doc:"true for the built-in example kit"`
	Kit       *string       `json:"kit" doc:"path of the kit file, null for the example"`
	Date      string        `json:"date" doc:"date of the evening"`
	Site      siteJSON      `json:"site" doc:"where the mount stands"`
	Axis      axisJSON      `json:"axis" doc:"what was assumed of the mount's azimuth axis"`
	Night     spanJSON      `json:"night" doc:"from one local mean solar noon to the next"`
	Sun       sunJSON       `json:"sun" doc:"its centre at -0.8333, -6, -12 and -18 degrees"`
	Moon      moonJSON      `json:"moon" doc:"the first of each in the night, upper limb"`
	DarkSun   float64       `json:"dark_sun_deg" doc:"how low the Sun must stand by the kit"`
	Dark      []spanJSON    `json:"dark" doc:"the Sun below that; none, one or two stretches"`
	DarkS     int64         `json:"dark_s" doc:"their length together, seconds"`
	SunLowest lowestJSON    `json:"sun_lowest" doc:"how low the Sun gets"`
	Possible  *possibleJSON `json:"possible" doc:"what a night that is never so dark would give with another site.dark_sun_deg; null if dark, or if nothing would"`
	Divided   bool          `json:"divided" doc:"true when the night is divided among the targets"`
	Targets   []targetJSON  `json:"targets" doc:"in the kit's order, each as if it had the night to itself; in a divided night in the order of their turns"`

	Calibrations []calibrationJSON `json:"guide_calibrations" doc:"of the guiding, as few as will hold; in the order of the targets"`
	Cables       []cableJSON       `json:"mount_cables" doc:"the ways of the telescope, each target from straight cables, in a divided night one after the other"`
	Supplies     suppliesJSON      `json:"supplies" doc:"whether the night lasts"`
}

type siteJSON struct {
	Name      string  `json:"name" doc:"its name"`
	Lat       float64 `json:"lat_deg" doc:"latitude, north +"`
	Lon       float64 `json:"lon_deg" doc:"longitude, east +"`
	Elevation float64 `json:"elevation_m" doc:"metres"`
	Zone      string  `json:"zone" doc:"IANA time zone of the kit; times here are UTC all the same"`
}

type axisJSON struct {
	Tilt        float64 `json:"tilt_deg" doc:"from the zenith"`
	Toward      float64 `json:"toward_az_deg" doc:"azimuth that it leans to, from north through east"`
	Uncertainty float64 `json:"uncertainty_deg" doc:"in any direction; early and late bounds come from it"`
}

type spanJSON struct {
	From string `json:"from" doc:"start"`
	To   string `json:"to" doc:"end"`
}

type sunJSON struct {
	Sunset           *string `json:"sunset" doc:"null if it does not happen, as all below"`
	CivilDusk        *string `json:"civil_dusk" doc:"-6 degrees, sinking"`
	NauticalDusk     *string `json:"nautical_dusk" doc:"-12 degrees, sinking"`
	AstronomicalDusk *string `json:"astronomical_dusk" doc:"-18 degrees, sinking"`
	AstronomicalDawn *string `json:"astronomical_dawn" doc:"-18 degrees, rising"`
	NauticalDawn     *string `json:"nautical_dawn" doc:"-12 degrees, rising"`
	CivilDawn        *string `json:"civil_dawn" doc:"-6 degrees, rising"`
	Sunrise          *string `json:"sunrise" doc:"-0.8333 degrees, rising"`
}

type moonJSON struct {
	Lit  float64 `json:"illuminated" doc:"share of its disc at the middle of the night, 0 to 1"`
	Mag  float64 `json:"mag" doc:"its V magnitude then, at its mean distance"`
	Rise *string `json:"rise" doc:"null if it does not happen"`
	Set  *string `json:"set" doc:"null if it does not happen"`
}

type targetJSON struct {
	Name         string       `json:"name" doc:"as the kit or the catalogue has it"`
	ID           *string      `json:"id" doc:"main designation, null with coordinates of the kit's own"`
	RA           float64      `json:"ra_deg" doc:"right ascension, J2000"`
	Dec          float64      `json:"dec_deg" doc:"declination, J2000"`
	Windows      []windowJSON `json:"windows" doc:"when the target can be used"`
	Moon         moonOnJSON   `json:"moon" doc:"what it does to the target in the windows"`
	NoRun        *string      `json:"no_run" doc:"why there is no run, in words; times in it UTC; null if there is one"`
	Unsuited     []unsuitJSON `json:"unsuited" doc:"filters of the kit that hardly suit the target; none if it has filters of its own"`
	Runs         []runJSON    `json:"runs" doc:"stretches of tracking, in order"`
	Rewinds      []rewindJSON `json:"rewinds" doc:"turnings of the derotator between runs, and what must be done before them"`
	Waits        []idleJSON   `json:"waits" doc:"parts of the dark in which a better start is waited for"`
	Gaps         []idleJSON   `json:"gaps" doc:"all else of the dark that is neither run nor rewind: with runs, rewinds and waits these add up to the dark"`
	Subs         []subsJSON   `json:"subs" doc:"by filter, in the kit's order"`
	Order        []orderJSON  `json:"order" doc:"the subs in the order in which they are worth most; empty where the filters take turns as written"`
	Usable       int64        `json:"usable_s" doc:"length of all windows, seconds"`
	Exposed      int64        `json:"exposed_s" doc:"shutter open over all runs, seconds"`
	ExposedShare *float64     `json:"exposed_of_dark" doc:"exposed_s / dark_s, null without darkness"`
	Price        int64        `json:"price_of_not_knowing_s" doc:"exposure gained if the axis were known exactly, seconds"`
}

type orderJSON struct {
	spanJSON
	Filter string  `json:"filter" doc:"as in the kit"`
	Count  int     `json:"count" doc:"subs"`
	Worth  float64 `json:"worth" doc:"of a minute of them against one at the zenith in full night without Moon, through the filter that suits the target best"`
	Why    *string `json:"why" doc:"until-moonset, until-moonrise or highest; null for where it costs least"`
	At     *string `json:"at" doc:"the instant that why is about"`
}

type unsuitJSON struct {
	Filter string  `json:"filter" doc:"its name"`
	Suits  float64 `json:"suits" doc:"what it gives of what a filter made for such light would, 0 to 1"`
}

type idleJSON struct {
	spanJSON
	Why string `json:"why" doc:"better-start, tilt-unknown, not-worth-a-rewind, too-fast, goal-reached, nothing-left, or what closes the window: altitude-floor, horizon-profile, ceiling, too-fast, hand-over, twilight"`
}

type windowJSON struct {
	spanJSON
	OpensAfter   string      `json:"opens_after" doc:"twilight, altitude floor, horizon profile, keyhole, azimuth rate of the mount, rate of the derotator or noon"`
	OpensBehind  *string     `json:"opens_behind" doc:"obstruction on the skyline that it leaves, if named"`
	ClosesBefore string      `json:"closes_before" doc:"the same words"`
	ClosesBehind *string     `json:"closes_behind" doc:"obstruction on the skyline that it goes behind, if named"`
	Ceiling      *boundsJSON `json:"ceiling" doc:"when the target comes to the keyhole that closes the window, null if that does not"`
}

type boundsJSON struct {
	At    *string `json:"at" doc:"for the axis as assumed; null if it misses the keyhole"`
	Early *string `json:"early" doc:"earliest over the axis's uncertainty: the window closes then"`
	Late  *string `json:"late" doc:"latest; null if for some axis it misses the keyhole"`
}

type runJSON struct {
	spanJSON
	Limit      limitJSON   `json:"limit" doc:"when the derotator reaches the end of its travel, as seen from the start"`
	StartAngle float64     `json:"derotator_start_deg" doc:"mechanical, as the derotator's scale reads"`
	EndAngle   float64     `json:"derotator_end_deg" doc:"for the axis as assumed"`
	Camera     float64     `json:"camera_angle_deg" doc:"position angle (J2000) of the chip's up, 0 to below 360"`
	Reversals  []string    `json:"reversals" doc:"when the field stops and turns back"`
	Subs       []countJSON `json:"subs" doc:"that fit the run"`
	Exposed    int64       `json:"exposed_s" doc:"shutter open, seconds"`
}

type limitJSON struct {
	Side  string  `json:"side" doc:"min, max or none"`
	At    *string `json:"at" doc:"for the axis as assumed; null if none before the window closes"`
	Early *string `json:"early" doc:"earliest over the axis's uncertainty; the run ends before it"`
	Late  *string `json:"late" doc:"latest; null if for some axis there is none"`
}

type rewindJSON struct {
	spanJSON
	Length  int64   `json:"length_s" doc:"seconds"`
	Turning int64   `json:"turning_s" doc:"of it the turning itself; the rest is half of the kit's subs.loop_s, the other half comes at the beginning of the next run"`
	From    float64 `json:"from_deg" doc:"mechanical angle before"`
	To      float64 `json:"to_deg" doc:"and after"`
}

type countJSON struct {
	Filter string `json:"filter" doc:"its name"`
	Count  int    `json:"count" doc:"subs"`
}

type subsJSON struct {
	Filter   string  `json:"filter" doc:"its name"`
	Exposure float64 `json:"exposure_s" doc:"of one sub, seconds"`
	Planned  int     `json:"planned" doc:"over all runs"`
	Wanted   int     `json:"wanted" doc:"by the kit"`
}

// documentHelp lists the keys of the document, one a line, those inside an object below it.
func documentHelp() string { return helpOf[document]() }

// helpOf lists the fields of a JSON document from its tags.
func helpOf[Document any]() string {
	var out strings.Builder
	describe(&out, reflect.TypeFor[Document](), "  ")
	return strings.TrimRight(out.String(), "\n")
}

func describe(out *strings.Builder, of reflect.Type, indent string) {
	for i := range of.NumField() {
		field := of.Field(i)
		inside := field.Type
		for inside.Kind() == reflect.Slice || inside.Kind() == reflect.Pointer {
			inside = inside.Elem()
		}
		if field.Anonymous {
			describe(out, inside, indent)
			continue
		}
		name := field.Tag.Get("json")
		if field.Type.Kind() == reflect.Slice {
			name += " []"
		}
		fmt.Fprintf(out, "%s%-*s%s\n", indent, max(26-len(indent), len(name)+1), name, field.Tag.Get("doc"))
		if inside.Kind() == reflect.Struct {
			describe(out, inside, indent+"  ")
		}
	}
}
