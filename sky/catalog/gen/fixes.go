package main

// The faults of the sources that are known, each with its reason. A fix whose star is not found stops
// the generator, so that the table can't outlive the fault.

// designationFix gives a star the designation that the source lacks or has wrong. "" leaves it.
type designationFix struct {
	hip                   int
	bayer, flamsteed, why string
}

func designationFixes() []designationFix {
	return []designationFix{
		{20535, "υ³ Eri", "", `the source says "undefined3"`},
		{78727, "ξ Sco", "", "the source has a Gliese number only"},
	}
}

// motionFix gives a star the proper motion that sefstars.txt lacks or has wrong.
type motionFix struct {
	hip           int
	raMas, decMas float64 // mas/yr, RA with cos δ
	why           string
}

func motionFixes() []motionFix {
	return []motionFix{
		{71683, -3679.25, 473.67, "α Cen A: sefstars has the pair's barycentre; van Leeuwen 2007 (memory)"},
		{71681, -3614.39, 802.98, "α Cen B: missing; van Leeuwen 2007 (memory)"},
		{25281, -0.71, -3.46, "η Ori: right motion in sefstars, at a wrong right ascension (05 42 for 05 24)"},
		{108917, 215.46, 91.06, "ξ Cep: right motion in sefstars, with the companion's magnitude 6.5"},
		{44248, -440, -210, "10 UMa: missing; (memory), good to 30 mas/yr"},
		{104887, 197, 410, "τ Cyg: missing; (memory), good to 30 mas/yr"},
		{57939, 4003.98, -5813.62, "Groombridge 1830: missing, 7″ a year; van Leeuwen 2007 (memory)"},
		{104217, 4105.9, 3155.9, "61 Cyg B: missing; van Leeuwen 2007 (memory)"},
		{84405, -480, -1140, "36 Oph: missing; (memory), good to 30 mas/yr"},
		{99461, 457, -1575, "HR 7703: missing; (memory), good to 10 mas/yr"},
		{90139, 197, -243, "109 Her: missing; (memory), good to 30 mas/yr"},
	}
}

// nameFixes lists traditional names of the source that no star gets, each with its reason. Names that
// the IAU has given to another star, and names used twice, need no entry: the rule in names.go deals
// with them.
func nameFixes() map[string]string {
	return map[string]string{
		"Grafias":  "borne at different times by β, ξ and ζ Scorpii",
		"Muliphen": "γ Oph, a letter from Muliphein, the IAU's γ CMa",
		"Aldhiba":  "φ Dra, a letter from Aldhibah, the IAU's ζ Dra",
		"Marfak":   "θ Cas, a letter from Marfik, the IAU's λ Oph",
		"Ruchba":   "ω¹ Cyg, a letter from Ruchbah, the IAU's δ Cas",
		"Dsiban":   "ψ² Dra, a letter from Dziban, the IAU's ψ¹ Dra",
		"Museida":  "π² UMa, a letter from Muscida, the IAU's ο UMa",
	}
}
