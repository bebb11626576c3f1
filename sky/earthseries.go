package sky

import "math"

// periodic is one term a·cos(b + c·τ) of the Earth's heliocentric place, τ in Julian millennia of TT
// from J2000.0; a in units of 1e-8 rad or 1e-8 AU.
type periodic struct{ a, b, c float64 }

func sum(terms []periodic, τ float64) (total float64) {
	for i := len(terms) - 1; i >= 0; i-- { // smaller ones first
		total += terms[i].a * math.Cos(terms[i].b+terms[i].c*τ)
	}
	return total * 1e-8
}

// The largest terms of VSOP87D, which refers to the mean equinox of date (Bretagnon & Francou 1988,
// A&A 202, 309; Meeus appendix III). What is left out sums to less than 2″. The library's own reader of
// the theory wants data files on the user's disk, and its short theory of ch. 25 is good to 36″ only.
// The figures were written from memory and checked against ERFA's epv00: see sun_test.go.
func earthLongitude(τ float64) Angle {
	l0 := []periodic{
		{175347046, 0, 0}, {3341656, 4.6692568, 6283.0758500}, {34894, 4.62610, 12566.15170},
		{3497, 2.7441, 5753.3849}, {3418, 2.8289, 3.5231}, {3136, 3.6277, 77713.7715},
		{2676, 4.4181, 7860.4194}, {2343, 6.1352, 3930.2097}, {1324, 0.7425, 11506.7698},
		{1273, 2.0371, 529.6910}, {1199, 1.1096, 1577.3435}, {990, 5.233, 5884.927},
		{902, 2.045, 26.298}, {857, 3.508, 398.149}, {780, 1.179, 5223.694}, {753, 2.533, 5507.553},
		{505, 4.583, 18849.228}, {492, 4.205, 775.523}, {357, 2.920, 0.067}, {317, 5.849, 11790.629},
		{284, 1.899, 796.298}, {271, 0.315, 10977.079}, {243, 0.345, 5486.778}, {206, 4.806, 2544.314},
		{205, 1.869, 5573.143}, {202, 2.458, 6069.777}, {156, 0.833, 213.299}, {132, 3.411, 2942.463},
		{126, 1.083, 20.775}, {115, 0.645, 0.980}, {103, 0.636, 4694.003}, {102, 0.976, 15720.839},
		{102, 4.267, 7.114}, {99, 6.21, 2146.17}, {98, 0.68, 155.42}, {86, 5.98, 161000.69},
		{85, 1.30, 6275.96}, {85, 3.67, 71430.70}, {80, 1.81, 17260.15},
	}
	l1 := []periodic{
		{628331966747, 0, 0}, {206059, 2.678235, 6283.075850}, {4303, 2.6351, 12566.1517},
		{425, 1.590, 3.523}, {119, 5.796, 26.298}, {109, 2.966, 1577.344},
	}
	l2 := []periodic{{52919, 0, 0}, {8720, 1.0721, 6283.0758}, {309, 0.867, 12566.152}}
	return Angle(sum(l0, τ) + τ*(sum(l1, τ)+τ*sum(l2, τ)))
}

func earthLatitude(τ float64) Angle {
	return Angle(sum([]periodic{
		{280, 3.199, 84334.662}, {102, 5.422, 5507.553}, {80, 3.88, 5223.69}, {44, 3.70, 2352.87},
	}, τ))
}

// earthDistance is in astronomical units.
func earthDistance(τ float64) float64 {
	r0 := []periodic{
		{100013989, 0, 0}, {1670700, 3.0984635, 6283.0758500}, {13956, 3.05525, 12566.15170},
		{3084, 5.1985, 77713.7715}, {1628, 1.1739, 5753.3849}, {1576, 2.8469, 7860.4194},
		{925, 5.453, 11506.770}, {542, 4.564, 3930.210}, {472, 3.661, 5884.927},
	}
	r1 := []periodic{{103019, 1.107490, 6283.075850}, {1721, 1.0644, 12566.1517}}
	return sum(r0, τ) + τ*sum(r1, τ)
}
