package ask_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"duskhand/plan/ask"
)

// FuzzAnswer holds that each line gets one line, which is a JSON object, and the same one however often it is asked;
// it has "error" exactly where the request could not be answered.
func FuzzAnswer(f *testing.F) {
	for _, line := range []string{
		`{"ask":"object","name":"Tarantula Nebula","id":1}`,
		`{"ask":"refraction","alt_deg":20,"pressure_hpa":988,"temp_c":18}`,
		`{"ask":"object","ask":"place"}`, `{"Ask":"object"}`, `[]`, `null`, `{"id":{"a":[1,2]}}`, "\xff", `{`,
		`{"ask":"twilight","site":{"lat_deg":-31.95,"lon_deg":141.5,"elevation_m":210},"night":"2026-12-05"}`,
	} {
		f.Add([]byte(line))
	}
	answerer := ask.New(nil)
	f.Fuzz(func(t *testing.T, line []byte) {
		answer, ok := answerer.Answer(line)
		require.NotContains(t, string(answer), "\n")
		var object map[string]any
		require.NoError(t, json.Unmarshal(answer, &object), "%s", answer)
		require.Equal(t, ok, object["error"] == nil, "%s", answer)
		again, _ := answerer.Answer(bytes.Clone(line))
		require.Equal(t, string(answer), string(again))
	})
}
