package supplies_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/kit"
	"duskhand/plan/supplies"
)

// The table of dew points that weather services print, over water, in whole degrees (memory): rows are the air's
// temperature, columns its relative humidity.
func TestDewPointsOfAPrintedTable(t *testing.T) {
	humidities := []float64{30, 40, 50, 60, 70, 80, 90}
	for celsius, row := range map[float64][]float64{
		30: {10.5, 14.9, 18.4, 21.4, 23.9, 26.2, 28.2},
		25: {6.2, 10.5, 13.9, 16.7, 19.1, 21.3, 23.2},
		20: {1.9, 6.0, 9.3, 12.0, 14.4, 16.4, 18.3},
		15: {-2.2, 1.5, 4.7, 7.3, 9.6, 11.6, 13.4},
		10: {-6.0, -2.6, 0.1, 2.6, 4.8, 6.7, 8.4},
	} {
		for i, want := range row {
			got := supplies.Air{TemperatureC: celsius, HumidityPercent: humidities[i]}.DewPointC()
			// Tables round, and below freezing some are made with other constants.
			within := 0.15
			if want < 0 {
				within = 1.0
			}
			assert.InDelta(t, want, got, within, "%g °C, %g %%", celsius, humidities[i])
		}
	}
}

// Drier air has a lower dew point, warmer air of the same humidity a higher one, and none lies above the air.
func TestDewGoesTheRightWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := supplies.Air{TemperatureC: rapid.Float64Range(-39, 49).Draw(t, "celsius"), HumidityPercent: rapid.Float64Range(1, 99).Draw(t, "humidity")}
		here, err := supplies.DewIn(air)
		require.NoError(t, err)
		require.LessOrEqual(t, here.PointC, air.TemperatureC)
		damper, warmer := air, air
		damper.HumidityPercent++
		warmer.TemperatureC++
		require.Greater(t, damper.DewPointC(), here.PointC)
		require.Greater(t, warmer.DewPointC(), here.PointC)
		// Air that cools with the moisture that it has is near dew at the temperature that was told, and not above it.
		for off, near := range map[float64]bool{0.01: false, -0.01: true} {
			cooled := here.WarnBelowC() + off
			if humidity := supplies.HumidityPercent(cooled, here.PointC); humidity <= 100 && humidity >= 1 && cooled > -40 && cooled < 50 {
				dew, err := supplies.DewIn(supplies.Air{TemperatureC: cooled, HumidityPercent: humidity})
				require.NoError(t, err)
				require.Equal(t, near, dew.Risk != supplies.Dry, "%g K from it", off)
			}
		}
	})
}

// What chips of known sizes take, by the FITS standard: blocks of 2880 bytes for header and data each, two bytes a pixel.
func TestBytesOfChips(t *testing.T) {
	for _, c := range []struct {
		name          string
		width, height int
		blocks        int64 // of data: ⌈2wh/2880⌉ by hand
	}{
		{"26 megapixels", 6248, 4176, 18120},
		{"16 megapixels", 4656, 3520, 11382},
		{"a guide camera's 1.2 megapixels", 1280, 960, 854},
		{"one block to the byte", 1440, 1, 1},
		{"one pixel more", 1441, 1, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := supplies.DataOf(kit.Camera{Width: c.width, Height: c.height}, 3)
			assert.Equal(t, 2880*(2+c.blocks), data.BytesEach)
			assert.Equal(t, 3*data.BytesEach, data.Bytes)
			assert.True(t, data.Against(data.Bytes).Fits(), "to the byte")
			assert.False(t, data.Against(data.Bytes-1).Fits())
			assert.Equal(t, 2, data.Against(data.Bytes-1).SubsThatFit())
			assert.Zero(t, data.Against(-5).SubsThatFit(), "a disk over its end holds none")
		})
	}
}
