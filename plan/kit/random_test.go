package kit_test

import (
	"bytes"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"duskhand/plan/kit"
)

// unsound returns the path of the first float inside v that is NaN or infinite, or "". Pointers are
// passed over: a time zone holds none.
func unsound(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := unsound(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if bad := unsound(v.Index(i), path); bad != "" {
				return bad
			}
		}
	}
	return ""
}

// sane fails when Read panics, gives neither a kit nor faults, or lets through what is no number.
func sane(t *rapid.T, data []byte) {
	k, err := kit.Read(data, "kit.toml")
	faults, _ := err.(kit.Faults)
	switch {
	case err != nil && len(faults) == 0:
		t.Fatalf("an error without faults: %v", err)
	case err != nil:
		for _, f := range faults {
			if f.Line < 0 || f.Line > 1+bytes.Count(data, []byte("\n")) || f.Problem == "" {
				t.Fatalf("a fault that is nowhere: %+v", f)
			}
		}
	default:
		if bad := unsound(reflect.ValueOf(k), "kit"); bad != "" {
			t.Fatalf("%s is no number", bad)
		}
	}
}

func TestReadSurvivesRandomBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sane(t, rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))
	})
}

func TestReadSurvivesRandomLines(t *testing.T) {
	line := rapid.OneOf(
		rapid.SampledFrom([]string{"[site]", "[[site]]", "[subs]", "[[subs.filter]]", "[subs.filter]", "[[target]]", "[target.ra]",
			"site = 3", "subs = [1, {filter = 2}]", "horizon = [{azimuth_deg = 1, altitude_deg = 2}, 3, [4]]", "target = []",
			"site.name = {}", "a.b.c = [[[{d=1}]]]", "name = '''", `"" = 1`, `"a.b" = 1`, "[\"\"]", "ra = nan", "dec = -inf"}),
		rapid.StringMatching(`[a-z_.]{1,12} ?= ?["'\[{]?[-0-9a-z.,:]{0,8}["'\]}]?`))
	rapid.Check(t, func(t *rapid.T) {
		var data []byte
		for range rapid.IntRange(0, 12).Draw(t, "lines") {
			data = append(append(data, line.Draw(t, "line")...), '\n')
		}
		sane(t, data)
	})
}

func TestReadSurvivesAMangledExample(t *testing.T) {
	scraps := []string{"nan", "inf", "-inf", "1e400", "-0.0", "9223372036854775807", "\"", "\n", "]", "[[", "=", "'''", "\x00", "\xff", "{}", "1979-05-27"}
	rapid.Check(t, func(t *rapid.T) {
		data := kit.ExampleTOML()
		for range rapid.IntRange(1, 5).Draw(t, "changes") {
			from := rapid.IntRange(0, len(data)).Draw(t, "from")
			to := min(len(data), from+rapid.IntRange(0, 8).Draw(t, "bytes"))
			data = bytes.Join([][]byte{data[:from], data[to:]}, []byte(rapid.SampledFrom(scraps).Draw(t, "scrap")))
		}
		sane(t, data)
	})
}

func TestReadSurvivesAnyNumberAnywhere(t *testing.T) {
	keys := kit.FieldNames()
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1)})).Draw(t, "number")
		sane(t, withValue(t, rapid.SampledFrom(keys).Draw(t, "key"), x))
	})
}

func FuzzRead(f *testing.F) {
	f.Add(kit.ExampleTOML())
	f.Add([]byte(least))
	f.Fuzz(func(t *testing.T, data []byte) {
		k, err := kit.Read(data, "kit.toml")
		if bad := unsound(reflect.ValueOf(k), "kit"); err == nil && bad != "" {
			t.Fatalf("%s is no number", bad)
		}
	})
}
