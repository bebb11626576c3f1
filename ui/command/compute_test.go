package command_test

import (
	"bufio"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"duskhand/plan/ask"
	"duskhand/ui/command"
	"duskhand/ui/testdata/clocks"
)

func TestComputeGoesOnAfterALineThatFails(t *testing.T) {
	s := newShell(t)
	good := `{"ask":"refraction","alt_deg":20,"pressure_hpa":988,"temp_c":18}`
	code := s.run(good+"\n\n  \r\n{bad\n"+good+"\r\n"+good, "compute") // blank lines, CR LF, no end at the end
	assert.Equal(t, command.Failed, code)
	lines := strings.Split(strings.TrimSuffix(s.out, "\n"), "\n")
	require.Len(t, lines, 4)
	assert.Contains(t, lines[1], `"error"`)
	for _, i := range []int{0, 2, 3} {
		assert.Contains(t, lines[i], "refraction_arcmin")
	}
	assert.Contains(t, s.err, "1 of 4 requests failed")
}

func TestComputeOfNothingIsDone(t *testing.T) {
	s := newShell(t)
	assert.Equal(t, command.Done, s.run("", "compute"))
	assert.Empty(t, s.out+s.err)
}

func TestComputeBoundsTheLengthOfALine(t *testing.T) {
	s := newShell(t)
	start, end := `{"ask":"object","name":"M 42","id":"`, `"}`
	fits := start + strings.Repeat("x", 1<<20-len(start)-len(end)) + end
	require.Len(t, fits, 1<<20)
	tooLong := start + strings.Repeat("x", 3<<20) + end
	assert.Equal(t, command.Failed, s.run(fits+"\n"+tooLong+"\n"+`{"ask":"object","name":"M 42"}`+"\n", "compute"))
	lines := strings.Split(strings.TrimSuffix(s.out, "\n"), "\n")
	require.Len(t, lines, 3)
	assert.NotContains(t, lines[0], `"error"`)
	assert.JSONEq(t, `{"error":"this line is longer than 1048576 bytes; write one request a line"}`, lines[1])
	assert.Contains(t, lines[2], "Orion Nebula", "the stream goes on")
}

// An answer comes before the next request is needed, even when part of that is already under way.
func TestComputeAnswersAsItIsAsked(t *testing.T) {
	asks, in := io.Pipe()
	out, answers := io.Pipe()
	ended := make(chan int, 1)
	go func() {
		program := command.Program{Streams: command.Streams{In: asks, Out: answers, Err: io.Discard},
			Env: func(string) string { return "" }, Clock: clocks.Fixed(time.Time{})}
		ended <- program.Run([]string{"compute"})
		answers.Close()
	}()
	read := bufio.NewReader(out)
	for range 3 {
		_, err := io.WriteString(in, "{\"ask\":\"object\",\"name\":\"M 42\"}\n{\"ask\":")
		require.NoError(t, err)
		line, err := read.ReadString('\n') // stands still for ever if the answer is held back
		require.NoError(t, err)
		assert.Contains(t, line, "Orion Nebula")
		_, err = io.WriteString(in, "\"object\",\"name\":\"M 31\"}\n")
		require.NoError(t, err)
		line, err = read.ReadString('\n')
		require.NoError(t, err)
		assert.Contains(t, line, "Andromeda")
	}
	require.NoError(t, in.Close())
	assert.Equal(t, command.Done, <-ended)
}

func TestComputeTellsOfAReaderThatIsGone(t *testing.T) {
	read, write := io.Pipe()
	require.NoError(t, read.Close())
	program := command.Program{Streams: command.Streams{In: strings.NewReader("{}\n"), Out: write, Err: io.Discard},
		Env: func(string) string { return "" }, Clock: clocks.Fixed(time.Time{})}
	assert.Equal(t, command.Failed, program.Run([]string{"compute"}))
}

// The table behind the help and the README: every kind that can be asked is there, its example is answered,
// and the answer has the fields that are named, in that order, and no others.
func TestComputeKindsAreDocumented(t *testing.T) {
	var documented []string
	for _, kind := range command.ComputeKinds() {
		documented = append(documented, kind.Ask)
		answer, ok := command.AnswerTo([]byte(kind.Example))
		require.True(t, ok, "%s: %s", kind.Ask, answer)
		assert.Equal(t, names(kind.Answer), keysOf(t, answer), kind.Ask)
		assert.Subset(t, append(names(kind.Request), "ask"), keysOf(t, []byte(kind.Example)), kind.Ask)
	}
	assert.ElementsMatch(t, append(ask.New(nil).Kinds(), "schedule", "advice"), documented)
}

// Fields that are documented are taken: any of them with true, which none is, must be faulted for its value
// and not for its name.
func TestComputeRequestFieldsAreKnown(t *testing.T) {
	for _, kind := range command.ComputeKinds() {
		for _, field := range kind.Request {
			answer, ok := command.AnswerTo([]byte(`{"ask":"` + kind.Ask + `","` + field.Name + `":true}`))
			require.False(t, ok)
			assert.NotContains(t, string(answer), "not known", "%s.%s", kind.Ask, field.Name)
			assert.Contains(t, string(answer), field.Name)
		}
	}
}

func names(fields []command.ComputeField) []string {
	var all []string
	for _, f := range fields {
		all = append(all, f.Name)
	}
	return all
}

// keysOf returns the keys of a JSON object, in order.
func keysOf(t *testing.T, object []byte) []string {
	decoder := json.NewDecoder(strings.NewReader(string(object)))
	_, err := decoder.Token()
	require.NoError(t, err)
	var keys []string
	for decoder.More() {
		key, err := decoder.Token()
		require.NoError(t, err)
		keys = append(keys, key.(string))
		var value json.RawMessage
		require.NoError(t, decoder.Decode(&value))
	}
	return keys
}

// Whatever comes in, each line that is not blank gives one line of JSON, with no NaN in it, and nothing
// panics.
func TestComputeAnswersEveryLineOnce(t *testing.T) {
	shell := newShell(t)
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(anyLine(), 0, 12).Draw(t, "lines")
		asked := 0
		for _, line := range lines {
			if strings.TrimSpace(line) != "" {
				asked++
			}
		}
		shell.run(strings.Join(lines, "\n"), "compute")
		var got []string
		if shell.out != "" {
			got = strings.Split(strings.TrimSuffix(shell.out, "\n"), "\n")
		}
		require.Len(t, got, asked)
		for _, line := range got {
			var object map[string]json.RawMessage // an id may be a number too large for us
			require.NoError(t, json.Unmarshal([]byte(line), &object), line)
			require.NotContains(t, line, "NaN")
		}
	})
}

// anyLine makes requests that are right, nearly right, and anything else without a line end.
func anyLine() *rapid.Generator[string] {
	value := rapid.OneOf(
		rapid.SampledFrom([]string{"null", "true", "-1", "1e308", "1e999", "90", "-90.0000001", "NaN", `""`, `"2026-12-05"`, `"M 42"`, "[]", "{}", `{"lat_deg":1}`,
			`{"lat_deg":90,"lon_deg":0}`, `{"ra_deg":0,"dec_deg":90}`, `"2026-12-05T12:44:00Z"`, `"9999-12-31T23:59:59Z"`}),
		rapid.Custom(func(t *rapid.T) string {
			text, err := json.Marshal(rapid.Float64().Draw(t, "x"))
			if err != nil { // NaN and infinities are no JSON, which is worth asking too
				return "1e400"
			}
			return string(text)
		}))
	kind := rapid.SampledFrom(append(ask.New(nil).Kinds(), "", "plan"))
	field := rapid.SampledFrom([]string{"id", "name", "site", "utc", "star", "axis", "date", "dut1_s", "alt_deg", "pressure_hpa", "temp_c", "derotator", "floor_alt_deg"})
	made := rapid.Custom(func(t *rapid.T) string {
		line := `{"ask":"` + kind.Draw(t, "kind") + `"`
		for range rapid.IntRange(0, 5).Draw(t, "fields") {
			line += `,"` + field.Draw(t, "field") + `":` + value.Draw(t, "value")
		}
		return line + "}"
	})
	return rapid.OneOf(made, rapid.StringMatching(`[^\n]{0,40}`), rapid.SampledFrom([]string{"", " ", "\t\r", "{", `{"id":`}))
}
