package ask_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/ask"
)

// All rows of overlap.csv (shapely 1.8.5 on GEOS 3.11.1), as requests.
func TestOverlapAgreesWithTheTable(t *testing.T) {
	file, err := os.Open("../../testdata/reference/overlap.csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 100)
	for _, line := range lines[1:] {
		answer := ask1(t, fmt.Sprintf(`{"ask":"overlap","width_deg":%s,"height_deg":%s,"angles_deg":[%s]}`,
			line[1], line[2], strings.ReplaceAll(line[3], ";", ",")))
		want, err := strconv.ParseFloat(line[4], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, answer["fraction"], 1e-6, "row %s", line[0]) // the table's README
	}
}

func TestOverlapRefusesInWords(t *testing.T) {
	tests := []struct{ name, request, want string }{
		{"no width", `{"ask":"overlap","height_deg":1,"angles_deg":[0]}`, `"width_deg" is missing`},
		{"no height", `{"ask":"overlap","width_deg":1,"angles_deg":[0]}`, `"height_deg" is missing`},
		{"a width of nought", `{"ask":"overlap","width_deg":0,"height_deg":1,"angles_deg":[0]}`, `"width_deg" is 0`},
		{"no angles", `{"ask":"overlap","width_deg":1,"height_deg":1}`, `"angles_deg" holds 0 angles; give 1 to 1000`},
		{"an angle that is null", `{"ask":"overlap","width_deg":1,"height_deg":1,"angles_deg":[0,null]}`, `"angles_deg[1]" is missing`},
		{"an angle out of range", `{"ask":"overlap","width_deg":1,"height_deg":1,"angles_deg":[4000]}`, `"angles_deg[0]" is 4000`},
		{"too many angles", `{"ask":"overlap","width_deg":1,"height_deg":1,"angles_deg":[0` + strings.Repeat(",1", 1000) + `]}`, `holds 1001 angles`},
		{"one angle without a list", `{"ask":"overlap","width_deg":1,"height_deg":1,"angles_deg":3}`, `field "angles_deg" holds`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			line, ok := ask.New(nil).Answer([]byte(test.request))
			require.False(t, ok, "%s", line)
			var answer struct{ Error string }
			require.NoError(t, json.Unmarshal(line, &answer))
			assert.Contains(t, answer.Error, test.want)
		})
	}
}
