package deep_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
	"duskhand/sky/catalog"
	"duskhand/sky/catalog/deep"
)

func TestLimitsOfKnownFields(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to float64 // CompleteTo, VT
	}{
		{"NGC 4565", 10, 11}, // near the galactic pole
		{"M 45", 9.5, 10},    // a bright cluster, wider than the cells of the index
		{"NGC 869", 8, 9.5},  // the core of the Double Cluster, beyond what the index keeps
		{"NGC 2070", 9, 10.5},
	} {
		o, err := catalog.Find(c.name)
		require.NoError(t, err)
		limit := deep.Limits(o.Star.Place, sky.Degree)
		t.Logf("%s: %+v", c.name, limit)
		assert.GreaterOrEqual(t, limit.CompleteTo, c.from, c.name)
		assert.LessOrEqual(t, limit.CompleteTo, c.to, c.name)
		stars := deep.Near(o.Star.Place, sky.Degree, allMagnitudes)
		assert.Len(t, stars, limit.Stars, c.name)
		assert.Equal(t, stars[len(stars)-1].Magnitude, limit.Faintest, c.name)
	}
}

// A larger circle about the same centre cannot be complete to a fainter magnitude.
func TestLimitsFallAsTheCircleGrows(t *testing.T) {
	for _, centre := range []struct{ raDeg, decDeg float64 }{{0, 90}, {123, -90}, {0.1, 41.8}, {34.7, 57.1}, {266, -29}} {
		previous := deep.Limits(at(centre.raDeg, centre.decDeg), 0)
		for _, degrees := range []float64{0.2, 0.7, 1.5, 4, 12, 40, 180} {
			limit := deep.Limits(at(centre.raDeg, centre.decDeg), sky.Angle(degrees)*sky.Degree)
			assert.LessOrEqual(t, limit.CompleteTo, previous.CompleteTo, "%v, %v°", centre, degrees)
			assert.GreaterOrEqual(t, limit.Stars, previous.Stars, "%v, %v°", centre, degrees)
			previous = limit
		}
	}
}

func TestAnEmptyCircleHasALimitStill(t *testing.T) {
	limit := deep.Limits(at(192.9, 27.1), sky.Arcsecond)
	assert.Zero(t, limit.Stars)
	assert.Zero(t, limit.Faintest)
	assert.Greater(t, limit.CompleteTo, 10.0)
}
