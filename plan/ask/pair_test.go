package ask_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/ask"
)

// All rows of pair.csv (Shuster & Oh 1981, J. Guidance and Control 4(1), 70–77), as requests.
func TestPairAgreesWithTheTable(t *testing.T) {
	file, err := os.Open("../../testdata/reference/pair.csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 400)
	column := map[string]int{}
	for i, name := range lines[0] {
		column[name] = i
	}
	for _, line := range lines[1:] {
		of := func(name string) string { return line[column[name]] }
		answer := ask1(t, fmt.Sprintf(`{"ask":"pair","stars":[[%s,%s],[%s,%s]],"target":[%s,%s],"sigma_arcmin":%s}`,
			of("star1_alt_deg"), of("star1_az_deg"), of("star2_alt_deg"), of("star2_az_deg"), of("target_alt_deg"), of("target_az_deg"), of("sigma_arcmin")))
		for field, name := range map[string]string{"separation_deg": "sep_deg", "pointing_arcmin": "point_rms_arcmin", "roll_arcmin": "roll_rms_arcmin"} {
			want, err := strconv.ParseFloat(of(name), 64)
			require.NoError(t, err)
			assert.InEpsilon(t, want, answer[field], 1e-4, "row %s, %s", of("id"), field) // 0.01 %, the table's README
		}
	}
}

func TestPairRefusesInWords(t *testing.T) {
	tests := []struct{ name, request, want string }{
		{"no stars", `{"ask":"pair","target":[40,20],"sigma_arcmin":1}`, `"stars" holds 0 places; give two`},
		{"three stars", `{"ask":"pair","stars":[[1,2],[3,4],[5,6]],"target":[40,20],"sigma_arcmin":1}`, `"stars" holds 3 places; give two`},
		{"a star without azimuth", `{"ask":"pair","stars":[[1,2],[3]],"target":[40,20],"sigma_arcmin":1}`, `"stars[1]" holds 1 numbers; give two`},
		{"a star with null", `{"ask":"pair","stars":[[null,2],[3,4]],"target":[40,20],"sigma_arcmin":1}`, `"stars[0] altitude" is missing`},
		{"a star above the zenith", `{"ask":"pair","stars":[[91,2],[3,4]],"target":[40,20],"sigma_arcmin":1}`, `"stars[0] altitude" is 91; give a number from -90 to 90`},
		{"no target", `{"ask":"pair","stars":[[1,2],[3,4]],"sigma_arcmin":1}`, `"target" holds 0 numbers`},
		{"an azimuth out of range", `{"ask":"pair","stars":[[1,2],[3,4]],"target":[40,400],"sigma_arcmin":1}`, `"target azimuth" is 400`},
		{"no sigma", `{"ask":"pair","stars":[[1,2],[30,4]],"target":[40,20]}`, `"sigma_arcmin" is missing`},
		{"a sigma of nought", `{"ask":"pair","stars":[[1,2],[30,4]],"target":[40,20],"sigma_arcmin":0}`, `"sigma_arcmin" is 0`},
		{"the same star twice", `{"ask":"pair","stars":[[30,200],[30,-160]],"target":[40,20],"sigma_arcmin":1}`, `same star twice`},
		{"opposite stars", `{"ask":"pair","stars":[[30,20],[-30,200]],"target":[40,20],"sigma_arcmin":1}`, `opposite each other`},
		{"one number for a star", `{"ask":"pair","stars":[1,2],"target":[40,20],"sigma_arcmin":1}`, `field "stars[0]" holds`},
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
