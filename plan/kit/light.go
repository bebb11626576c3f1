package kit

// lightFields are the keys, in several tables, from which it follows how much light a sub gathers and what it
// is lost in. None is needed for the plan of a night; an answer that lacks one names it.
func lightFields() []field {
	return []field{
		{key: "site.sky_mag_per_arcsec2", kind: number, unit: "V magnitudes per square second of arc", min: 16, max: 22.3, need: optional, example: "21.6",
			help: "How dark the sky overhead is on a clear night without Moon; larger is darker.",
			set:  func(d *draft, v value) { d.kit.Site.SkyMagPerArcsec2 = v.number }},
		{key: "site.extinction_mag_per_airmass", kind: number, unit: "V magnitudes per airmass", min: 0.05, max: 1, need: optional, example: "0.18",
			help: "What the air takes from a star overhead; 0.12 on a mountain, 0.3 in haze.",
			set:  func(d *draft, v value) { d.kit.Site.ExtinctionMagPerAirmass = v.number }},
		{key: "site.seeing_arcsec", kind: number, unit: "arcseconds", min: 0.3, max: 20, need: optional, example: "3",
			help: "Full width at half maximum of a star overhead in your subs, as a rule; lower it grows with the airmass.",
			set:  func(d *draft, v value) { d.kit.Site.SeeingArcsec = v.number }},
		{key: "optics.obstruction_mm", kind: number, unit: "mm", min: 0, max: 5000, fallback: 0.0, example: "0",
			help: "Diameter of what stands in the middle of the aperture: a second mirror; nothing in a refractor.",
			set:  func(d *draft, v value) { d.kit.Optics.ObstructionMM = v.number }},
		{key: "optics.transmission", kind: number, min: 0.01, max: 1, need: optional, example: "0.85",
			help: "Share of the light that comes through lenses, mirrors, filter and windows together.",
			set:  func(d *draft, v value) { d.kit.Optics.Transmission = v.number }},
		{key: "camera.quantum_efficiency", kind: number, min: 0.01, max: 1, need: optional, example: "0.8",
			help: "Share of the photons on the chip that become electrons.",
			set:  func(d *draft, v value) { d.kit.Camera.QuantumEfficiency = v.number }},
		{key: "camera.read_noise_e", kind: number, unit: "electrons", min: 0.1, max: 200, need: optional, example: "1.5",
			help: "Read noise of one pixel, as an rms, at the gain that you use.",
			set:  func(d *draft, v value) { d.kit.Camera.ReadNoiseE = v.number }},
		{key: "camera.full_well_e", kind: number, unit: "electrons", min: 100, max: 10000000, need: optional, example: "20000",
			help: "Electrons at which a pixel is full or its number ends, whichever comes first, at the gain that you use.",
			set:  func(d *draft, v value) { d.kit.Camera.FullWellE = v.number }},
		{key: "camera.dark_current_e_per_s", kind: number, unit: "electrons per second", min: 0, max: 100, fallback: 0.0, example: "0.002",
			help: "Dark current of one pixel at the set point; cooled chips have next to none.",
			set:  func(d *draft, v value) { d.kit.Camera.DarkCurrentEPerS = v.number }},
		{key: "camera.set_point_c", kind: number, unit: "°C", min: -100, max: 50, need: optional, example: "-5",
			help: "The temperature that the chip is cooled to.",
			set:  func(d *draft, v value) { celsius := v.number; d.kit.Camera.SetPointC = &celsius }},
		{key: "subs.read_noise_share", kind: number, min: 0.001, max: 1, fallback: 0.05, example: "0.05",
			help: "By which share the read noise may raise the noise of a sub; the shortest sub follows from it.",
			set:  func(d *draft, v value) { d.kit.Subs.ReadNoiseShare = v.number }},
	}
}

func (r *reader) checkObstruction() {
	const obstruction, aperture = "optics.obstruction_mm", "optics.aperture_mm"
	o := r.draft.kit.Optics
	if r.sound(obstruction, aperture) && o.ObstructionMM >= o.ApertureMM {
		r.accuse(obstruction, "leaves nothing of", aperture, "give the smaller diameter here")
	}
}
