// Package sky turns catalogue places into directions over a site, and directions into the field
// rotation that a mount's derotator must cancel. It knows no screen, no file and no clock: instants
// come in as time.Time, places go out as typed angles.
//
// Frames are types: J2000 (the ICRF), OfDate (true equator and equinox of date) and Horizontal. A
// Frame, made once for a site and a night, carries one into the other. Signs: latitude north +,
// longitude EAST +, azimuth from north through east, hour angle west +, position angle and field
// rotation positive from north through east.
//
// Time: UTC in and out. UT1 = UTC + dut1, which the caller gives; TT = UTC + 69.184 s.
//
// Accuracy, against testdata/reference (ERFA 2.0, see its README):
//
//	star, airless            0.05″
//	field angle χ            0.05″ · (1/sin distance to the pole + 1/sin distance to the axis)
//	its rate                 0.02 %, or 0.001 °/h near a reversal
//	Sun                      2″, so twilight to 1 s at usual latitudes
//	Moon, topocentric        18″, by the theory's authors; moonrise to 2 s
//	refraction               10″ down to 5° altitude, in a standard atmosphere
//
// The library meeus, whose chapters are cited by number, counts longitude west + and azimuth from the
// south. Neither leaves this package; mostly it is vectors here, which have no such choice.
package sky
