package decimal_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/sky/decimal"
)

// FuzzParse holds that what is read as a number is one, and is read as the same when it is typed with the other signs.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"12.5", "12,5", "−3", "+12", "1e-3", " 7 ", "1,000,000", "0x1p3", "Inf", "_1", ",5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		x, err := decimal.Parse(text)
		if err != nil {
			return
		}
		require.False(t, math.IsNaN(x) || math.IsInf(x, 0), text)
		printed, err := decimal.Parse(strconv.FormatFloat(x, 'g', -1, 64))
		require.NoError(t, err, text)
		require.Equal(t, x, printed, text)
		plain, err := decimal.Parse(decimal.Plain(text))
		require.NoError(t, err, text)
		require.Equal(t, x, plain, text)
	})
}
