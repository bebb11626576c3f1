package kit

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Keys is which keys each action of the screens has, by the action's name and as KeyNames has them. An
// action that is not in it has its default.
type Keys map[string][]string

// KeyAction is one thing that a key of the screens does. Screens are those on which it can be pressed, by
// the names that the checklist's steps have for them; none are all of them.
type KeyAction struct {
	Name, Help string
	Default    []string
	Screens    []string
}

// screenNames are the screens that a key can belong to.
func screenNames() []string {
	return []string{"run", "night", "two stars", "focus star", "frame", "subs", "decide", "steps", "alarms"}
}

func allBut(screen string) []string {
	return slices.DeleteFunc(screenNames(), func(s string) bool { return s == screen })
}

// KeyActions returns every action whose key the kit can change, in the order of the file. Going to a screen
// by its number is not among them.
func KeyActions() []KeyAction {
	on := func(screens ...string) []string { return screens }
	return []KeyAction{
		{"next", "say that the next thing is done", []string{"space"}, nil},
		{"derotator", "derotator turned on, or off", []string{"o"}, nil},
		{"rewound", "rewound: to the proposed angle or another", []string{"r"}, nil},
		{"read", "read the derotator's angle", []string{"a"}, nil},
		{"subs", "subs started, or stopped", []string{"s"}, nil},
		{"target", "next target, or the one chosen on the screen decide", []string{"t"}, nil},
		{"undo", "undo what was said last", []string{"u"}, nil},
		{"redo", "take the undo back", []string{"y"}, nil},
		{"divide", "divide the night among the targets", []string{"/"}, nil},
		{"snooze", "alarms that are on quiet for a while, or again", []string{"z"}, nil},
		{"note", "note something", []string{"n"}, nil},
		{"axes", "axis readouts with a star centred", []string{"x"}, on("two stars")},
		{"level", "slope of the base, by a level", []string{"l"}, on("two stars")},
		{"focused", "both telescopes focused", []string{"f"}, on("focus star")},
		{"temperature", "temperature, by the thermometer", []string{"c"}, on("focus star", "decide")},
		{"humidity", "humidity, by the hygrometer", []string{"h"}, on("decide")},
		{"page_on", "next page", []string{"right"}, on("decide")},
		{"page_back", "page before", []string{"left"}, on("decide")},
		{"type_on", "only the next kind of object", []string{"."}, on("decide")},
		{"type_back", "only the kind before", []string{","}, on("decide")},
		{"one_run", "only what lasts one run, or all", []string{"d"}, on("decide")},
		{"fits", "only what fits the chip, or all", []string{"f"}, on("decide")},
		{"find", "a constellation or a name", []string{"i"}, on("decide")},
		{"frame_left", "frame to the left", []string{"left"}, on("frame")},
		{"frame_right", "frame to the right", []string{"right"}, on("frame")},
		{"turn_back", "wanted angle a degree less", []string{","}, on("frame")},
		{"turn_on", "a degree more", []string{"."}, on("frame")},
		{"turn_back_far", "ten degrees less", []string{"<"}, on("frame")},
		{"turn_on_far", "ten degrees more", []string{">"}, on("frame")},
		{"closer", "closer", []string{"+", "="}, on("frame")},
		{"wider", "wider", []string{"-"}, on("frame")},
		{"as_seen", "north up, or as the camera sees it", []string{"v"}, on("frame")},
		{"middle", "object in the middle again", []string{"0"}, on("frame")},
		{"keep_angle", "which runs keep the wanted angle", []string{"d"}, on("frame")},
		{"framing", "wanted angle and middle in numbers", []string{"e"}, on("frame")},
		{"seen", "where the picture shows the object", []string{"i"}, on("frame")},
		{"mosaic", "a mosaic of several fields", []string{"#"}, on("frame")},
		{"keep_framing", "keep the framing", []string{"enter"}, on("frame")},
		{"drop_framing", "drop what is not kept", []string{"esc"}, on("frame")},
		{"save", "save the page as a picture", []string{"p"}, on("frame")},
		{"skip", "leave the step out, and why", []string{"m"}, on("steps")},
		{"fail", "the step went wrong, and how", []string{"w"}, on("steps")},
		{"open", "the screen that helps with the step", []string{"enter"}, on("steps")},
		{"steps", "the steps of the night", []string{"b"}, allBut("steps")},
		{"screen", "next screen", []string{"tab"}, nil},
		{"back", "screen before", []string{"shift+tab"}, nil},
		{"digits", "digits only, and back", []string{"g"}, on("run")},
		{"up", "up the list, or the frame up", []string{"up", "k"}, allBut("run")},
		{"down", "down the list, or the frame down", []string{"down", "j"}, allBut("run")},
		{"new_kit", "make a kit of your own, in the example night", []string{"K"}, nil},
		{"help", "these keys", []string{"?"}, nil},
		{"quit", "leave; nothing said is lost", []string{"q"}, nil},
	}
}

// both tells whether two actions can be pressed on one screen.
func (a KeyAction) both(b KeyAction) bool {
	if len(a.Screens) == 0 || len(b.Screens) == 0 {
		return true
	}
	return slices.ContainsFunc(a.Screens, func(s string) bool { return slices.Contains(b.Screens, s) })
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

// taken says what a key is wanted for that no other action may have, "" if it is free.
func taken(name string) string {
	switch {
	case name == "ctrl+c":
		return "leaves the program, whatever happens"
	case name == "ctrl+z":
		return "suspends the program"
	case name == "esc":
		return "leaves what is asked"
	case name == "enter":
		return "answers what is asked"
	case len(name) == 1 && name >= "1" && name <= "9":
		return "goes to a screen by its number"
	}
	return ""
}

// readKeys reads one key, or a list of them.
func (f field) readKeys(raw any) (value, string) {
	items, list := raw.([]any)
	if !list {
		items = []any{raw}
	}
	if !f.inRange(float64(len(items))) {
		return value{}, fmt.Sprintf("%s right; give %s", isNot(raw), f.wanted())
	}
	v := value{}
	for _, item := range items {
		name, ok := item.(string)
		if !ok {
			return value{}, fmt.Sprintf("%s the name of a key in double quotes; give %s", isNot(item), f.wanted())
		}
		if problem := f.keyProblem(name); problem != "" {
			return value{}, problem
		}
		if slices.Contains(v.texts, name) {
			return value{}, fmt.Sprintf("has the key %s twice; give it once", shown(name))
		}
		v.texts = append(v.texts, name)
	}
	return v, ""
}

// keyProblem says why the action of the field can't have a key.
func (f field) keyProblem(name string) string {
	if name == " " {
		return `= " " is a blank; write "space"`
	}
	if use := taken(name); use != "" && !slices.Contains(f.options, name) {
		return fmt.Sprintf("= %s is reserved: it %s; give another key", shown(name), use)
	}
	if slices.Contains(KeyNames(), name) {
		return ""
	}
	plain := strings.TrimPrefix(name, "alt+")
	if r, size := utf8.DecodeRuneInString(plain); size == len(plain) && size > 0 && r != utf8.RuneError && r != ' ' && unicode.IsPrint(r) && !unicode.Is(unicode.Mn, r) {
		return ""
	}
	if near := nearestKey(name); near != "" {
		return fmt.Sprintf("= %s is no key that is known; did you mean %q?", shown(name), near)
	}
	return fmt.Sprintf("= %s is no key that is known; give %s", shown(name), f.wanted())
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

// keysFields has a row for every action; options are the reserved keys that it may have all the same.
func keysFields() (rows []field) {
	for _, a := range KeyActions() {
		var fallback any = a.Default[0]
		example := a.Default[0]
		if len(a.Default) > 1 {
			list := make([]any, len(a.Default))
			for i := range a.Default {
				list[i] = a.Default[i]
			}
			fallback, example = list, literal(list)
		}
		rows = append(rows, field{key: "keys." + a.Name, kind: keyNames, min: 1, max: 6, options: a.Default, fallback: fallback,
			example: example, help: a.sentence(), set: func(d *draft, v value) {
				if d.kit.Keys == nil {
					d.kit.Keys = Keys{}
				}
				d.kit.Keys[a.Name] = v.texts
			}})
	}
	return rows
}

// sentence is the help with the screens that the key belongs to.
func (a KeyAction) sentence() string {
	words := strings.ToUpper(a.Help[:1]) + a.Help[1:]
	switch n := len(a.Screens); {
	case n == 0:
	case n <= 2:
		words += ", on the screen " + strings.Join(a.Screens, " and ")
	case n == len(screenNames())-1:
		for _, s := range screenNames() {
			if !slices.Contains(a.Screens, s) {
				words += ", on every screen but " + s
			}
		}
	}
	return words + "."
}

// checkKeys finds keys that two actions of one screen have.
func (r *reader) checkKeys() {
	actions := KeyActions()
	for i, b := range actions {
		for _, a := range actions[:i] {
			first, second := "keys."+a.Name, "keys."+b.Name
			if !a.both(b) || !r.sound(first, second) {
				continue
			}
			for _, key := range r.draft.kit.Keys[a.Name] {
				if slices.Contains(r.draft.kit.Keys[b.Name], key) {
					r.accuseKey(key, first, second)
				}
			}
		}
	}
}

// accuseKey faults the one of the two that the file gives, the second if it gives both.
func (r *reader) accuseKey(key, first, second string) {
	own, other := second, first
	if !r.given[second] {
		own, other = first, second
	}
	where := "the default"
	if r.given[other] {
		where = fmt.Sprintf("line %d", r.lines.of(other))
	}
	r.fault(own, fmt.Sprintf("has the key %q, and so has %s (%s); give one of the two another key", key, other, where))
}
