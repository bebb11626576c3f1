package kit

import (
	"slices"

	"duskhand/sky"
)

// This file is the table itself, in the order of the file that a new kit gets; it is long because a kit
// has many keys.

// draft is a kit while its fields are being set. The set functions of a list's fields write to its last
// item.
type draft struct {
	kit    Kit
	points []HorizonPoint
	outer  int      // the item whose own list is being read, counted from 0
	names  []string // of stars.known, before they are looked up
}

func (d *draft) point() *HorizonPoint { return &d.points[len(d.points)-1] }
func (d *draft) filter() *Filter      { return &d.kit.Subs.Filters[len(d.kit.Subs.Filters)-1] }
func (d *draft) target() *Target      { return &d.kit.Targets[len(d.kit.Targets)-1] }
func (d *draft) load() *Load          { return &d.kit.Power.Loads[len(d.kit.Power.Loads)-1] }
func (d *draft) on() *OnEvent         { return &d.kit.On[len(d.kit.On)-1] }

func tables() []table {
	return []table{
		{name: "site", help: "Where the mount stands."},
		{name: "axis", help: "How the mount's azimuth axis leans, as far as it is known."},
		{name: "derotator", help: "The turning stage that holds the field still."},
		{name: "mount", help: "How low and how high the mount may point, about its own axis."},
		{name: "optics", help: "The main telescope and, if there is one, the guide telescope."},
		{name: "camera", help: "The main camera."},
		{name: "guide", help: "The guide camera, and where the guide telescope looks."},
		{name: "stars", help: "Which stars will do for the alignment, and how well they are centred."},
		{name: "horizon", list: true, help: "The skyline, one table for each point; between points it is a straight line.",
			grow: func(d *draft) { d.points = append(d.points, HorizonPoint{}) }},
		{name: "subs", help: "How the exposures follow one another."},
		{name: "subs.filter", list: true, atLeast: 1, help: "The subs wanted through one filter; one table for each filter, in order.",
			grow: func(d *draft) { d.kit.Subs.Filters = append(d.kit.Subs.Filters, Filter{}) }},
		{name: "target", list: true, atLeast: 1, help: "The objects of the night; one table for each, in order.",
			grow: func(d *draft) { d.kit.Targets = append(d.kit.Targets, Target{}) }},
		{name: "target.filter", list: true, help: "What is wanted of the target above through one filter; a target that has any is taken through these alone.",
			grow: func(d *draft) {
				t := &d.kit.Targets[d.outer]
				t.Filters = append(t.Filters, TargetFilter{})
			}},
		{name: "alarm", help: "How the person is called to a rewind."},
		{name: "watch", help: "Where the subs arrive, for looking at them as they come."},
		{name: "power", help: "The battery of the night."},
		{name: "power.load", list: true, help: "What the battery feeds; one table for each.",
			grow: func(d *draft) { d.kit.Power.Loads = append(d.kit.Power.Loads, Load{}) }},
		{name: "on", list: true, help: "Programs of your own that are run when something happens in the night; one table for each.",
			grow: func(d *draft) { d.kit.On = append(d.kit.On, OnEvent{}) }},
		{name: "keys", help: "The keys of the screens: a character as it is typed, space, tab, up, pgup, f5, ctrl+a, alt+a and their like; or a list of them."},
	}
}

func fields() []field {
	return slices.Concat(siteFields(), axisFields(), derotatorFields(), mountFields(), cablesFields(), opticsFields(),
		cameraFields(), cameraAxisFields(), guideFields(), starsFields(), horizonFields(), subsFields(), filterFields(), targetFields(), targetFilterFields(),
		alarmFields(), darknessFields(), lightFields(), watchFields(), powerFields(), onFields())
}

func siteFields() []field {
	return []field{
		{key: "site.name", kind: text, min: 1, max: 60, need: required, example: "Saltbush Flat",
			help: "What the place is called on screens and in the record.",
			set:  func(d *draft, v value) { d.kit.Site.Name = v.text }},
		{key: "site.latitude", kind: latitude, unit: "degrees", min: -90, max: 90, need: required, example: `31°57'00"S`,
			help: "Latitude, north positive, as a number or as text with N or S.",
			set:  func(d *draft, v value) { d.kit.Site.Place.Latitude = v.degrees() }},
		{key: "site.longitude", kind: longitude, unit: "degrees", min: -180, max: 180, need: required, example: `141°30'00"E`,
			help: "Longitude, EAST positive, as a number or as text with E or W.",
			set:  func(d *draft, v value) { d.kit.Site.Place.Longitude = v.degrees() }},
		{key: "site.elevation_m", kind: number, unit: "m", min: -500, max: 9000, fallback: 0.0, example: "210",
			help: "Height above sea level; 1000 m move the Moon by half a second of arc, and no star.",
			set:  func(d *draft, v value) { d.kit.Site.Place.ElevationMetres = v.number }},
		{key: "site.zone", kind: zone, need: required, example: "Australia/Broken_Hill",
			help: "The time zone of the clock on the screen, by its IANA name, or UTC.",
			set:  func(d *draft, v value) { d.kit.Site.Zone = v.zone }},
		{key: "site.pressure_hpa", kind: number, unit: "hPa", min: 400, max: 1100, fallback: 1010.0, example: "988",
			help: "Air pressure at the site itself, not reduced to sea level, for refraction.",
			set:  func(d *draft, v value) { d.kit.Site.PressureHPa = v.number }},
		{key: "site.temperature_c", kind: number, unit: "°C", min: -60, max: 60, fallback: 10.0, example: "18",
			help: "Air temperature of the evening, for refraction.",
			set:  func(d *draft, v value) { d.kit.Site.TemperatureC = v.number }},
		{key: "site.dut1_s", kind: number, unit: "s", min: -0.9, max: 0.9, fallback: 0.0, example: "0.03",
			help: "UT1 minus UTC as the IERS publishes it; 1 s is 15 seconds of arc.",
			set:  func(d *draft, v value) { d.kit.Site.DUT1 = v.seconds() }},
	}
}

func axisFields() []field {
	return []field{
		{key: "axis.tilt_deg", kind: number, unit: "degrees", min: 0, max: 15, fallback: 0.0, example: "2.4",
			help: "How far the azimuth axis leans from the zenith, by a level on the base or from an earlier night.",
			set:  func(d *draft, v value) { d.kit.Axis.Tilt = v.degrees() }},
		{key: "axis.toward_deg", kind: number, unit: "degrees", min: 0, max: 360, openMax: true, fallback: 0.0, example: "210",
			help: "The azimuth it leans towards, from north through east.",
			set:  func(d *draft, v value) { d.kit.Axis.Toward = v.degrees() }},
		{key: "axis.uncertainty_deg", kind: number, unit: "degrees", min: 0, max: 15, fallback: 3.0, example: "1",
			help: "How wrong the tilt may be in any direction; it sets the early and late bound of every limit.",
			set:  func(d *draft, v value) { d.kit.Axis.Uncertainty = v.degrees() }},
	}
}

func derotatorFields() []field {
	return []field{
		{key: "derotator.min_deg", kind: number, unit: "degrees", min: -720, max: 720, need: required, example: "-16",
			help: "The limit with the smaller reading.",
			set:  func(d *draft, v value) { d.kit.Derotator.Min = v.degrees() }},
		{key: "derotator.max_deg", kind: number, unit: "degrees", min: -720, max: 720, need: required, example: "16",
			help: "The limit with the larger reading.",
			set:  func(d *draft, v value) { d.kit.Derotator.Max = v.degrees() }},
		{key: "derotator.stops", kind: choice, options: []string{"anywhere", "ends"}, need: required, example: "anywhere",
			help: "Where a rewind can stop. Send it to the middle: if it stands there, anywhere; if it runs on to a limit, ends.",
			set:  func(d *draft, v value) { d.kit.Derotator.StopsAnywhere = v.text == "anywhere" }},
		{key: "derotator.resumes", kind: choice, options: []string{"yes", "no"}, fallback: "no", example: "no",
			help: "Whether it tracks again by itself after a rewind. If not, each run has the step of seeing that it turns.",
			set:  func(d *draft, v value) { d.kit.Derotator.Resumes = v.text == "yes" }},
		{key: "derotator.largest_rate_deg_per_h", kind: number, unit: "degrees per hour", min: 0, openMin: true, max: 36000, need: required, example: "120",
			help: "The fastest field rotation that it can follow while tracking.",
			set:  func(d *draft, v value) { d.kit.Derotator.LargestRate = v.perHour() }},
		{key: "derotator.rewind_deg_per_s", kind: number, unit: "degrees per second", min: 0, openMin: true, max: 30, need: required, example: "0.5",
			help: "How fast it turns during a rewind.",
			set:  func(d *draft, v value) { d.kit.Derotator.RewindSpeed = v.perSecond() }},
		{key: "derotator.sense", kind: sense, min: -1, max: 1, fallback: int64(1), example: "1",
			help: "Stand behind the telescope, looking where it looks: 1 if the camera turns clockwise while the reading grows, -1 if anticlockwise.",
			set:  func(d *draft, v value) { d.kit.Derotator.Sense = v.whole() }},
		{key: "derotator.margin_s", kind: number, unit: "s", min: 0, max: 1800, fallback: 60.0, example: "60",
			help: "The time that must be left before a limit when the last sub of a run ends.",
			set:  func(d *draft, v value) { d.kit.Derotator.Margin = v.seconds() }},
	}
}

func mountFields() []field {
	return []field{
		{key: "mount.floor_deg", kind: number, unit: "degrees", min: 0, max: 85, fallback: 20.0, example: "25",
			help: "The lowest altitude worth using.",
			set:  func(d *draft, v value) { d.kit.Mount.Floor = v.degrees() }},
		{key: "mount.ceiling_deg", kind: number, unit: "degrees", min: 5, max: 90, fallback: 80.0, example: "80",
			help: "The altitude above which the keyhole begins.",
			set:  func(d *draft, v value) { d.kit.Mount.Ceiling = v.degrees() }},
		{key: "mount.ceiling_is", kind: choice, options: []string{"speed", "stop"}, fallback: "speed", example: "speed",
			help: "Why there is a ceiling: the mount can't follow above it (speed), or something is in the telescope's way (stop).",
			set:  func(d *draft, v value) { d.kit.Mount.CeilingStops = v.text == "stop" }},
		{key: "mount.ceiling_warn_min", kind: number, unit: "min", min: 0, max: 120, fallback: 10.0, example: "10",
			help: "How long before a ceiling that is a stop you are called to drive the telescope away.",
			set:  func(d *draft, v value) { d.kit.Mount.CeilingWarn = v.minutes() }},
		{key: "mount.frame_min", kind: number, unit: "min", min: 0, max: 120, fallback: 10.0, example: "10",
			help: "How long before the first sub the derotator may go on, to frame on the true picture.",
			set:  func(d *draft, v value) { d.kit.Mount.Frame = v.minutes() }},
		{key: "mount.largest_azimuth_rate_deg_per_s", kind: number, unit: "degrees per second", min: 0, openMin: true, max: 20, fallback: 0.05, example: "0.05",
			help: "The fastest that it tracks in azimuth; at altitude 80° a star needs up to 0.024.",
			set:  func(d *draft, v value) { d.kit.Mount.LargestAzimuthRate = v.perSecond() }},
	}
}

func opticsFields() []field {
	return []field{
		{key: "optics.name", kind: text, min: 1, max: 60, need: optional, example: "80 mm refractor",
			help: "What you call the main telescope.",
			set:  func(d *draft, v value) { d.kit.Optics.Name = v.text }},
		{key: "optics.aperture_mm", kind: number, unit: "mm", min: 5, max: 5000, need: required, example: "80",
			help: "Clear aperture of the main telescope.",
			set:  func(d *draft, v value) { d.kit.Optics.ApertureMM = v.number }},
		{key: "optics.focal_length_mm", kind: number, unit: "mm", min: 10, max: 20000, need: required, example: "480",
			help: "Focal length of the main telescope, with its reducer or extender.",
			set:  func(d *draft, v value) { d.kit.Optics.FocalLengthMM = v.number }},
		{key: "optics.guide_aperture_mm", kind: number, unit: "mm", min: 5, max: 5000, need: optional, example: "50",
			help: "Clear aperture of the guide telescope, if there is one.",
			set:  func(d *draft, v value) { d.kit.Optics.GuideApertureMM = v.number }},
		{key: "optics.guide_focal_length_mm", kind: number, unit: "mm", min: 10, max: 20000, need: optional, example: "200",
			help: "Focal length of the guide telescope, if there is one.",
			set:  func(d *draft, v value) { d.kit.Optics.GuideFocalLengthMM = v.number }},
		{key: "optics.tube_material", kind: choice, options: materialNames(), fallback: materialNames()[0], example: materialNames()[0],
			help: "What the tube is made of, for the drift of the focus as it cools.",
			set: func(d *draft, v value) {
				d.kit.Optics.TubeMaterial, d.kit.Optics.TubeExpansionPerK = v.text, expansionOf(v.text)
			}},
		{key: "optics.tube_length_mm", kind: number, unit: "mm", min: 10, max: 20000, need: optional, example: "450",
			help: "Length of tube between lens or mirror and camera; the focal length if left out.",
			set:  func(d *draft, v value) { d.kit.Optics.TubeLengthMM = v.number }},
	}
}

func cameraFields() []field {
	return []field{
		{key: "camera.name", kind: text, min: 1, max: 60, need: optional, example: "mono camera",
			help: "What you call the camera.",
			set:  func(d *draft, v value) { d.kit.Camera.Name = v.text }},
		{key: "camera.pixel_um", kind: number, unit: "µm", min: 0.5, max: 50, need: required, example: "3.76",
			help: "Side of one pixel, unbinned.",
			set:  func(d *draft, v value) { d.kit.Camera.PixelUM = v.number }},
		{key: "camera.width_px", kind: whole, unit: "pixels", min: 16, max: 50000, need: required, example: "6248",
			help: "Width of the chip.",
			set:  func(d *draft, v value) { d.kit.Camera.Width = v.whole() }},
		{key: "camera.height_px", kind: whole, unit: "pixels", min: 16, max: 50000, need: required, example: "4176",
			help: "Height of the chip.",
			set:  func(d *draft, v value) { d.kit.Camera.Height = v.whole() }},
		{key: "camera.angle_at_zero_deg", kind: number, unit: "degrees", min: -360, max: 360, fallback: 0.0, example: "0",
			help: "Angle of the chip's up from the mount's up, north through east, when the derotator reads 0.",
			set:  func(d *draft, v value) { d.kit.Camera.AngleAtZero = v.degrees() }},
		{key: "camera.picture", kind: choice, options: []string{"true", "mirrored"}, fallback: "true", example: "true",
			help: "Whether its picture shows the sky as the eye sees it, or mirrored: with north up, east is on the right.",
			set:  func(d *draft, v value) { d.kit.Camera.Mirrored = v.text == "mirrored" }},
		{key: "camera.colour", kind: choice, options: []string{"none", "RGGB", "BGGR", "GRBG", "GBRG"}, fallback: "none", example: "none",
			help: "Order of a colour chip's filters: of the first two pixels of the file's first row, then of its second; a frame's BAYERPAT goes before it.",
			set: func(d *draft, v value) {
				if d.kit.Camera.Colour = v.text; v.text == "none" {
					d.kit.Camera.Colour = ""
				}
			}},
		{key: "camera.gain_e_per_adu", kind: number, unit: "electrons", min: 0.001, max: 1000, need: optional, example: "0.25",
			help: "Electrons that make one ADU at the gain that you use; with read_noise_e it tells how bright the sky is.",
			set:  func(d *draft, v value) { d.kit.Camera.GainEPerADU = v.number }},
	}
}

func horizonFields() []field {
	return []field{
		{key: "horizon.azimuth_deg", kind: number, unit: "degrees", min: 0, max: 360, openMax: true, need: required, example: "95",
			help: "Azimuth of the point, from north through east.",
			set:  func(d *draft, v value) { d.point().Azimuth = v.degrees() }},
		{key: "horizon.altitude_deg", kind: number, unit: "degrees", min: -5, max: 89, need: required, example: "22",
			help: "Altitude of the skyline there.",
			set:  func(d *draft, v value) { d.point().Altitude = v.degrees() }},
		{key: "horizon.name", kind: text, min: 1, max: 40, need: optional, example: "gum trees",
			help: "What stands there; it holds half-way to the points on either side.",
			set:  func(d *draft, v value) { d.point().Name = v.text }},
	}
}

func subsFields() []field {
	return []field{
		{key: "subs.in_a_row", kind: whole, unit: "subs", min: 1, max: 10000, fallback: int64(1), example: "5",
			help: "Subs of one filter before the next filter's turn.",
			set:  func(d *draft, v value) { d.kit.Subs.InARow = v.whole() }},
		{key: "subs.overhead_s", kind: number, unit: "s", min: 0, max: 600, fallback: 5.0, example: "4",
			help: "From the end of a sub to the start of the next: download, and whatever comes between.",
			set:  func(d *draft, v value) { d.kit.Subs.Overhead = v.seconds() }},
		{key: "subs.settle_s", kind: number, unit: "s", min: 0, max: 3600, fallback: 60.0, example: "60",
			help: "From the end of a rewind, or a start, to the first sub: guiding restarts and settles.",
			set:  func(d *draft, v value) { d.kit.Subs.Settle = v.seconds() }},
		{key: "subs.dither_every", kind: whole, unit: "subs", min: 0, max: 10000, fallback: int64(0), example: "5",
			help: "Dither after so many subs; 0 for never.",
			set:  func(d *draft, v value) { d.kit.Subs.DitherEvery = v.whole() }},
		{key: "subs.dither_settle_s", kind: number, unit: "s", min: 0, max: 600, fallback: 10.0, example: "12",
			help: "The time that one dither takes until guiding is calm.",
			set:  func(d *draft, v value) { d.kit.Subs.DitherSettle = v.seconds() }},
		{key: "subs.loop_s", kind: number, unit: "s", min: 0, max: 3600, fallback: 240.0, example: "240",
			help: "What a rewind takes beside its turning, half before it and half after: guiding off, temperature; re-centre, guiding on.",
			set:  func(d *draft, v value) { d.kit.Subs.Loop = v.seconds() }},
		{key: "subs.worth_a_rewind_s", kind: number, unit: "s", min: 0, max: 14400, fallback: 600.0, example: "600",
			help: "The exposure that a rewind must gain for it to be planned: what getting up for it is worth to you.",
			set:  func(d *draft, v value) { d.kit.Subs.WorthARewind = v.seconds() }},
		{key: "subs.order", kind: choice, options: []string{string(ByWorth), string(AsWritten)}, fallback: string(ByWorth), example: string(ByWorth),
			help: "By worth, each filter has its subs when they are worth most, Moon and height considered; as written, the filters take turns in the order of the file.",
			set:  func(d *draft, v value) { d.kit.Subs.Order = Order(v.text) }},
		{key: "subs.filter_change_s", kind: number, unit: "s", min: 0, max: 600, fallback: 0.0, example: "0",
			help: "What a change of filter takes beside the overhead.",
			set:  func(d *draft, v value) { d.kit.Subs.FilterChange = v.seconds() }},
		{key: "subs.refocus_s", kind: number, unit: "s", min: 0, max: 600, fallback: 0.0, example: "0",
			help: "What a change takes more when the two filters' focus_offset_um differ.",
			set:  func(d *draft, v value) { d.kit.Subs.Refocus = v.seconds() }},
		{key: "subs.worth_a_change_s", kind: number, unit: "s", min: 0, max: 14400, fallback: 120.0, example: "120",
			help: "The time under the best sky that a change of filter must gain for it to be planned, beside what it takes.",
			set:  func(d *draft, v value) { d.kit.Subs.WorthAChange = v.seconds() }},
	}
}

func targetFields() []field {
	return []field{
		{key: "target.name", kind: text, min: 1, max: 60, need: required, example: "NGC 2070",
			help: "A name or number that the catalogue knows, or any name if ra and dec are given.",
			set:  func(d *draft, v value) { d.target().Name = v.text }},
		{key: "target.ra", kind: rightAscension, unit: "degrees", min: 0, max: 360, openMax: true, need: optional, example: "05h38m42s",
			help: "Right ascension J2000, instead of the catalogue's: text in hours, or a number of degrees.",
			set:  func(d *draft, v value) { d.target().Star.Place.RA = v.degrees() }},
		{key: "target.dec", kind: latitude, unit: "degrees", min: -90, max: 90, need: optional, example: `-69°06'03"`,
			help: "Declination J2000, instead of the catalogue's, north positive: text or a number of degrees.",
			set:  func(d *draft, v value) { d.target().Star.Place.Dec = v.degrees() }},
		{key: "target.pm_ra_mas_yr", kind: number, unit: "milliarcseconds per year", min: -20000, max: 20000, need: optional, example: "-12.5",
			help: "Proper motion along the parallel, that is with cos dec in it.",
			set:  func(d *draft, v value) { d.target().Star.Motion.RA = v.motion() }},
		{key: "target.pm_dec_mas_yr", kind: number, unit: "milliarcseconds per year", min: -20000, max: 20000, need: optional, example: "4",
			help: "Proper motion towards north.",
			set:  func(d *draft, v value) { d.target().Star.Motion.Dec = v.motion() }},
		{key: "target.camera_angle_deg", kind: number, unit: "degrees", min: 0, max: 360, openMax: true, need: optional, example: "90",
			help: "The camera angle that you want: position angle of the chip's up, north through east, J2000.",
			set:  func(d *draft, v value) { angle := v.degrees(); d.target().CameraAngle = &angle }},
		{key: "target.keep_angle", kind: choice, options: []string{string(PreferAngle), string(AlwaysKeep), string(NeverKeep)}, fallback: string(PreferAngle), example: string(PreferAngle),
			help: "Which runs begin at that angle: those that can, only such runs, or none (the longest run instead).",
			set:  func(d *draft, v value) { d.target().Keep = KeepAngle(v.text) }},
		{key: "target.share", kind: number, unit: "parts", min: 0, max: 100, fallback: 0.0, example: "1",
			help: "Its part of a night that is divided among several targets: with 2 it gets twice what one with 1 gets; 0 takes no part.",
			set:  func(d *draft, v value) { d.target().Share = v.number }},
		{key: "target.middle_east_arcmin", kind: number, unit: "arcminutes", min: -1200, max: 1200, fallback: 0.0, example: "12",
			help: "How far east of the object the middle of the chip is wanted.",
			set:  func(d *draft, v value) { d.target().Middle.East = sky.Angle(v.number) * sky.Arcminute }},
		{key: "target.middle_north_arcmin", kind: number, unit: "arcminutes", min: -1200, max: 1200, fallback: 0.0, example: "-5",
			help: "How far north of the object it is wanted.",
			set:  func(d *draft, v value) { d.target().Middle.North = sky.Angle(v.number) * sky.Arcminute }},
	}
}

func alarmFields() []field {
	return []field{
		{key: "alarm.bell", kind: choice, options: []string{"bell", "none", "command"}, fallback: "bell", example: "bell",
			help: "The terminal's bell, nothing, or a command of your own.",
			set:  func(d *draft, v value) { d.kit.Alarm.Bell = v.text }},
		{key: "alarm.command", kind: textList, min: 1, max: 20, need: optional, example: `["play", "call.wav"]`,
			help: "Program and arguments that are run at a call, when bell is \"command\".",
			set:  func(d *draft, v value) { d.kit.Alarm.Command = v.texts }},
		{key: "alarm.warn_before_min", kind: number, unit: "minutes", min: 0, max: 120, fallback: 5.0, example: "5",
			help: "How long before a rewind the first warning comes.",
			set:  func(d *draft, v value) { d.kit.Alarm.WarnBefore = v.minutes() }},
		{key: "alarm.notify", kind: choice, options: []string{"auto", "none"}, fallback: "auto", example: "auto",
			help: "A message on the desktop too, where the terminal is known to show them.",
			set:  func(d *draft, v value) { d.kit.Alarm.Notify = v.text == "auto" }},
		{key: "alarm.snooze_min", kind: number, unit: "minutes", min: 1, max: 120, fallback: 10.0, example: "10",
			help: "How long the snooze key keeps the alarms that are on quiet.",
			set:  func(d *draft, v value) { d.kit.Alarm.Snooze = v.minutes() }},
		{key: "alarm.dawn_before_min", kind: number, unit: "minutes", min: 0, max: 240, fallback: 30.0, example: "30",
			help: "How long before the end of darkness the dawn alarm comes.",
			set:  func(d *draft, v value) { d.kit.Alarm.DawnBefore = v.minutes() }},
	}
}

func onFields() []field {
	return []field{
		{key: "on.event", kind: choice, options: NightEvents(), need: required, example: RewindDue,
			help: "What it is run at.",
			set:  func(d *draft, v value) { d.on().Event = v.text }},
		{key: "on.command", kind: textList, min: 1, max: 20, need: required, example: `["notify-send", "rewind now"]`,
			help: "Program and arguments, run without a shell and ended after 20 s; what happened is in DUSKHAND_ variables.",
			set:  func(d *draft, v value) { d.on().Command = v.texts }},
	}
}
