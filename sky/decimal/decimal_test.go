package decimal_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky/decimal"
)

func TestParseTakesPointCommaAndBothMinuses(t *testing.T) {
	for text, want := range map[string]float64{
		"12.5": 12.5, "12,5": 12.5, " 12,5 ": 12.5, "-3": -3, "−3": -3, "−3,25": -3.25, "+3": 3, "1e-3": 0.001, ".5": 0.5, ",5": 0.5, "−,5": -0.5, "0": 0,
	} {
		got, err := decimal.Parse(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 0, text)
	}
}

func TestParseRefusesTheRestAndSaysTheForm(t *testing.T) {
	for _, text := range []string{"", "abc", "1,2,3", "1.2,3", "--3", "−−3", "nan", "inf", "Infinity", "0x10", "1_000", "12 5", "5,", ",", "1e999"} {
		_, err := decimal.Parse(text)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), "write one as 12.5, 12,5 or −3")
	}
	_, err := decimal.Parse("12 mm")
	assert.ErrorContains(t, err, `"12 mm" is no number`)
}

func TestListPartsNumbersAndKeepsDecimalCommas(t *testing.T) {
	for text, want := range map[string][]float64{
		"37,06 104,96":     {37.06, 104.96},
		"37.06,104.96":     {37.06, 104.96},
		"37, 104":          {37, 104},
		"37,06, 104,96":    {37.06, 104.96},
		"37,06; −104,96":   {37.06, -104.96},
		"2,4 210 0,5":      {2.4, 210, 0.5},
		"1,2,3":            {1, 2, 3},
		"  ":               nil,
		"-2.4\t210 ,5 , 6": {-2.4, 210, 0.5, 6},
	} {
		got, err := decimal.List(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	_, err := decimal.List("2,4 north")
	assert.ErrorContains(t, err, `"north" is no number`)
}
