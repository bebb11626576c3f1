package light_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/plan/light"
	"duskhand/sky"
	"duskhand/sky/catalog"
)

// sites are those of testdata/rates.py.
var sites = map[string]kit.Site{
	"outback":  {PressureHPa: 988, Place: sky.Site{ElevationMetres: 210}, ExtinctionMagPerAirmass: 0.18, SkyMagPerArcsec2: 21.6},
	"mountain": {PressureHPa: 780, Place: sky.Site{ElevationMetres: 2400}, ExtinctionMagPerAirmass: 0.10, SkyMagPerArcsec2: 21.9},
	"haze":     {PressureHPa: 1010, ExtinctionMagPerAirmass: 0.35, SkyMagPerArcsec2: 19.5},
}

// The table's galaxy has V = 22 over each square second of arc, its gas 100 R of Hα with a fifth of that in [O III]
// and [S II] each: a galaxy and a nebula of no name.
func nameless() (galaxy, gas light.Source) {
	known := func(x float64) catalog.Known { return catalog.Known{Value: x, OK: true} }
	galaxy = light.SourceOf(catalog.Object{Type: "galaxy", Magnitude: known(10), MajorArcmin: known(1), MinorArcmin: known(1)})
	galaxy.SurfaceMag = 22
	gas = light.SourceOf(catalog.Object{Type: "bright nebula"})
	for i := range gas.Lines {
		gas.Lines[i].Rayleighs *= 100 / 50.0
	}
	return galaxy, gas
}

func TestPhotonRatesAgainstAdaptiveIntegration(t *testing.T) {
	file, err := os.Open("testdata/rates.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+3*7*3)
	galaxy, gas := nameless()
	for _, row := range rows[1:] {
		x := make([]float64, len(row))
		for i := 2; i < len(row); i++ {
			x[i], err = strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
		}
		f := kit.Filter{Name: row[1], CentreNM: x[2], BandwidthNM: x[3]}
		v := light.Through(f, sites[row[0]])
		altitude := sky.Angle(90-x[4]) * sky.Degree
		moon := light.Moonlight{PhaseAngle: sky.Angle(x[7]) * sky.Degree, MoonAltitude: sky.Angle(90-x[5]) * sky.Degree}
		const alike = 1e-4 // the table's digits, three points to a stretch, and 0.92104 for 0.4·ln 10
		assert.InEpsilon(t, x[8], v.Moonless(altitude), alike, "moonless %v", row)
		assert.InEpsilon(t, x[9], v.Moonlit(v.Under(moon), altitude, sky.Angle(x[6])*sky.Degree), alike, "moonlit %v", row)
		assert.InEpsilon(t, x[10], v.Of(galaxy).At(altitude), alike, "galaxy %v", row)
		if x[11] == 0 {
			assert.Zero(t, v.Of(gas).At(altitude), "gas %v", row)
			continue
		}
		assert.InEpsilon(t, x[11], v.Of(gas).At(altitude), alike, "gas %v", row)
	}
}
