package kit

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Template returns a new kit file with a comment above every key: the answers, by key path, as a person
// typed them; defaults as they are, set off as comments; and a comment too for each required key that has
// no answer, which Read will then ask for.
//
// The answers to PlaceKey and FiltersKey make the keys that they are of. Those to a list's keys ("target.name", "subs.filter.count", "horizon.azimuth_deg") make its first
// item.
// Error: Faults without lines, for each answer that won't do, or if the answers contradict each other.
//
// keys are the rows of [keys].
func Template(answers map[string]string, keys ...KeyRow) ([]byte, error) {
	asTyped, listed := answers, answers[FiltersKey] != ""
	answers, more, faults := apart(answers)
	for _, key := range slices.Sorted(maps.Keys(answers)) {
		if listed && strings.HasPrefix(key, "subs.filter.") {
			continue // its faults are those of the list
		}
		// A target with coordinates of its own need not be in the catalogue; readAs knows.
		if fault := checkAnswer(key, answers[key]); fault != nil && !(key == "target.name" && answers["target.ra"] != "") {
			faults = append(faults, *fault)
		}
	}
	if len(faults) == 0 { // what contradicts itself is no kit to be filled in
		faults = NewSketch(asTyped).Faults
	}
	if len(faults) > 0 {
		return nil, faults
	}
	var out bytes.Buffer
	out.WriteString("# The kit of duskhand. Lines that begin with # are comments: where one shows a key, take the #\n" +
		"# away to give it a value of your own.\n")
	for _, t := range tables() {
		writeTable(&out, t, answers)
		if t.name == "subs.filter" {
			writeFilters(&out, t, more)
		}
		if t.name == keysTable {
			for _, k := range keys {
				fmt.Fprintf(&out, "# %s %s\n# %s = %s\n", k.Help, k.terms(), k.Name, k.value())
			}
		}
	}
	if !complete(answers) {
		return out.Bytes(), nil
	}
	if _, err := readAs(out.Bytes(), "", false); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// complete tells whether every question has an answer.
func complete(answers map[string]string) bool {
	return !slices.ContainsFunc(Questions(), func(q Question) bool { return answers[q.Key] == "" })
}

func writeTable(out *bytes.Buffer, t table, answers map[string]string) {
	off := "# " // a list that may be empty stays a comment until it has an answer
	if !t.list || t.atLeast > 0 {
		off = ""
	}
	for key := range answers {
		if in, _ := (field{key: key}).split(); in == t.name {
			off = ""
		}
	}
	fmt.Fprintf(out, "\n# %s\n%s%s\n", t.help, off, t.header())
	for _, f := range fields() {
		if in, _ := f.split(); in == t.name {
			writeField(out, f, answers)
		}
	}
}

// writeFilters writes the filters after the first, whose comments serve them too.
func writeFilters(out *bytes.Buffer, t table, more []map[string]string) {
	for _, filter := range more {
		fmt.Fprintf(out, "\n%s\n", t.header())
		for _, f := range fields() {
			if in, name := f.split(); in == t.name && filter[name] != "" {
				fmt.Fprintf(out, "%s = %s\n", name, literal(f.typed(filter[name])))
			}
		}
	}
}

func writeField(out *bytes.Buffer, f field, answers map[string]string) {
	_, name := f.split()
	fmt.Fprintf(out, "# %s %s\n", f.help, f.terms())
	answer, answered := answers[f.key]
	switch {
	case answered:
		fmt.Fprintf(out, "%s = %s\n", name, literal(f.typed(answer)))
	case f.need == defaulted:
		fmt.Fprintf(out, "# %s = %s\n", name, literal(f.fallback))
	default:
		fmt.Fprintf(out, "# %s = %s\n", name, literal(f.typed(f.example)))
	}
}

// terms returns what the field may be and what holds without it, as sentences.
func (f field) terms() string {
	wanted := f.wanted()
	first := strings.ToUpper(wanted[:1]) + wanted[1:]
	switch f.need {
	case required:
		return first + "; required."
	case optional:
		return first + "; may be left out."
	}
	return first + "; " + literal(f.fallback) + " if left out."
}

// literal returns raw as TOML writes it. Texts have passed field.read, so that only quotes and
// backslashes want escaping.
func literal(raw any) string {
	switch x := raw.(type) {
	case string:
		return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(x) + `"`
	case float64:
		return strconv.FormatFloat(x, 'f', -1, 64)
	case []any:
		items := make([]string, len(x))
		for i := range x {
			items[i] = literal(x[i])
		}
		return "[" + strings.Join(items, ", ") + "]"
	}
	return fmt.Sprint(raw)
}
