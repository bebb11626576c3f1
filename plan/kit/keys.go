package kit

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Keys is which keys the file gives to each name of its section [keys], as KeyNames has them. What the names are, and
// which keys they have otherwise, the kit does not know: see KeyTable.
type Keys map[string][]string

// KeyTable is the section [keys] of a file, for whoever knows what its names stand for.
type KeyTable struct {
	Keys   Keys
	names  []string // every name in it, also of those whose keys are at fault
	faulty map[string]bool
	lines  lines
}

// KeyRow is what there is to say of one name of [keys] in reference and template. Help is a sentence; Default has the
// key or keys that hold if the file says nothing.
type KeyRow struct {
	Name, Help string
	Default    []string
}

// keysTable is the section whose names the kit does not know.
const keysTable = "keys"

// Names returns every name that the section has, in order.
func (t KeyTable) Names() []string { return t.names }

// Faulty tells whether the keys of a name are none, so that nothing can be said of them.
func (t KeyTable) Faulty(name string) bool { return t.faulty[name] }

// Line returns the line of a name, 0 if the file has none of it.
func (t KeyTable) Line(name string) int { return t.lines.of(joined(keysTable, name)) }

// Fault returns a fault of a name.
func (t KeyTable) Fault(name, problem string) Fault {
	return Fault{Line: t.Line(name), Key: joined(keysTable, name), Problem: problem}
}

// KeyNames returns the names of the keys that have more than one character; every other key is the
// character that it types. What terminals send alike (ctrl+i is tab, ctrl+m is enter) has one name.
func KeyNames() []string {
	names := []string{"space", "enter", "tab", "shift+tab", "esc", "backspace", "delete", "insert", "home", "end", "pgup", "pgdown"}
	for _, arrow := range []string{"up", "down", "left", "right"} {
		names = append(names, arrow, "shift+"+arrow, "ctrl+"+arrow)
	}
	for n := 1; n <= 12; n++ {
		names = append(names, fmt.Sprintf("f%d", n))
	}
	for c := 'a'; c <= 'z'; c++ {
		if c != 'i' && c != 'm' {
			names = append(names, "ctrl+"+string(c))
		}
	}
	return names
}

// keyTable reads the section [keys], and has it checked by who knows its names.
func (r *reader) keyTable(checks []func(KeyTable) []Fault) {
	given, _ := r.document[keysTable].(map[string]any)
	t := KeyTable{Keys: Keys{}, faulty: map[string]bool{}, lines: r.lines}
	for name, raw := range given {
		t.names = append(t.names, name)
		keys, problem := readKeys(raw)
		if problem != "" {
			t.faulty[name] = true
			r.fault(joined(keysTable, name), problem)
			continue
		}
		t.Keys[name] = keys
	}
	slices.Sort(t.names)
	r.draft.kit.Keys = t.Keys
	for _, check := range checks {
		r.faults = append(r.faults, check(t)...)
	}
}

// mostKeys is how many keys a name may have; keysWanted says what is right.
const (
	mostKeys   = 6
	keysWanted = "the name of a key, or a list of 1 to 6"
)

// readKeys reads one key, or a list of them.
func readKeys(raw any) (keys []string, problem string) {
	items, list := raw.([]any)
	if !list {
		items = []any{raw}
	}
	if len(items) == 0 || len(items) > mostKeys {
		return nil, fmt.Sprintf("%s right; give %s", isNot(raw), keysWanted)
	}
	for _, item := range items {
		name, ok := item.(string)
		if !ok {
			return nil, fmt.Sprintf("%s the name of a key in double quotes; give %s", isNot(item), keysWanted)
		}
		if problem := keyProblem(name); problem != "" {
			return nil, problem
		}
		if slices.Contains(keys, name) {
			return nil, fmt.Sprintf("has the key %s twice; give it once", shown(name))
		}
		keys = append(keys, name)
	}
	return keys, ""
}

// keyProblem says why a name is not one of a key.
func keyProblem(name string) string {
	if name == " " {
		return `= " " is a blank; write "space"`
	}
	if slices.Contains(KeyNames(), name) {
		return ""
	}
	plain := strings.TrimPrefix(name, "alt+")
	if r, size := utf8.DecodeRuneInString(plain); size == len(plain) && size > 0 && r != utf8.RuneError && r != ' ' &&
		unicode.IsPrint(r) && !unicode.Is(unicode.Mn, r) {
		return ""
	}
	if near := nearestKey(name); near != "" {
		return fmt.Sprintf("= %s is no key that is known; did you mean %q?", shown(name), near)
	}
	return fmt.Sprintf("= %s is no key that is known; give %s", shown(name), keysWanted)
}

// nearestKey returns the key that was meant, "" if that can't be told.
func nearestKey(name string) string {
	lower := strings.ToLower(strings.NewReplacer("-", "+", " ", "+", "control", "ctrl", "escape", "esc", "return", "enter", "page", "pg").Replace(strings.ToLower(name)))
	if letter, shifted := strings.CutPrefix(lower, "shift+"); shifted && len(letter) == 1 {
		return strings.ToUpper(letter)
	}
	if slices.Contains(KeyNames(), lower) {
		return lower
	}
	return Nearest(lower, KeyNames())
}

// value is the row's default as the file writes it.
func (k KeyRow) value() string {
	if len(k.Default) == 1 {
		return literal(k.Default[0])
	}
	list := make([]any, len(k.Default))
	for i := range k.Default {
		list[i] = k.Default[i]
	}
	return literal(list)
}

// terms says what the keys of the row may be and what holds without them.
func (k KeyRow) terms() string {
	return strings.ToUpper(keysWanted[:1]) + keysWanted[1:] + "; " + k.value() + " if left out."
}
