package sky

// Site is a place on the Earth. Latitude north +, geodetic (WGS84); Longitude EAST +; Elevation in
// metres above the ellipsoid, for which height above sea level will do.
type Site struct {
	Latitude, Longitude Angle
	ElevationMetres     float64
}
