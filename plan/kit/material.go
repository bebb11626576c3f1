package kit

// Material is what a tube is made of. ExpansionPerK is by which share of its length it grows with each
// kelvin.
type Material struct {
	Name          string
	ExpansionPerK float64
}

// Materials returns the materials that a kit file may name, the usual one first.
//
// Error:  alloys and layings of fibre differ by a tenth and more; for carbon fibre the upper end of
// 0.5 to 1·10⁻⁶ stands, so that a drift is announced early rather than late.
// Source: the project's handbook, section 8 (memory).
func Materials() []Material {
	return []Material{
		{"aluminium", 23e-6},
		{"carbon fibre", 1e-6},
		{"steel", 12e-6},
	}
}

func materialNames() []string {
	var names []string
	for _, m := range Materials() {
		names = append(names, m.Name)
	}
	return names
}

// expansionOf returns the expansion of a material of the table; the field lets no other name through.
func expansionOf(name string) float64 {
	for _, m := range Materials() {
		if m.Name == name {
			return m.ExpansionPerK
		}
	}
	return 0
}
