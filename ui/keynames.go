package ui

import (
	"slices"

	"github.com/charmbracelet/bubbles/key"

	"duskhand/plan/kit"
)

// named returns the bindings by the names that the kit's section [keys] has for their actions. Going to a
// screen by its number has none: those keys stay.
func (k *keyMap) named() map[string]*key.Binding {
	return map[string]*key.Binding{
		"next": &k.Next, "derotator": &k.Derotator, "rewound": &k.Rewound, "read": &k.Read, "subs": &k.Subs, "target": &k.Target,
		"undo": &k.Undo, "redo": &k.Redo, "divide": &k.Divide, "snooze": &k.Snooze, "note": &k.Note,
		"axes": &k.Axes, "level": &k.Level, "focused": &k.Focused, "temperature": &k.Temperature, "humidity": &k.Humidity,
		"page_on": &k.PageOn, "page_back": &k.PageBack, "type_on": &k.TypeOn, "type_back": &k.TypeBack, "one_run": &k.OneRun,
		"fits": &k.Fits, "find": &k.Find,
		"frame_left": &k.Left, "frame_right": &k.Right, "turn_back": &k.TurnBack, "turn_on": &k.TurnOn,
		"turn_back_far": &k.TurnBackFar, "turn_on_far": &k.TurnOnFar, "closer": &k.Closer, "wider": &k.Wider, "as_seen": &k.AsSeen,
		"middle": &k.Middle, "keep_angle": &k.Keep, "framing": &k.Framing, "seen": &k.Seen, "mosaic": &k.Grid,
		"keep_framing": &k.KeepFraming, "drop_framing": &k.DropFraming, "save": &k.Save,
		"skip": &k.Skip, "fail": &k.Fail, "open": &k.Open, "steps": &k.Steps, "screen": &k.Screen, "back": &k.Back,
		"digits": &k.Digits, "up": &k.Up, "down": &k.Down, "new_kit": &k.NewKit, "help": &k.Help, "quit": &k.Quit,
	}
}

// keysFor returns the table with the keys that the kit gives. Ctrl-C leaves, whatever the kit says.
func keysFor(chosen kit.Keys) keyMap {
	keys := defaultKeys()
	for action, b := range keys.named() {
		names := chosen[action]
		if len(names) == 0 {
			continue
		}
		typed := make([]string, len(names))
		for i, name := range names {
			typed[i] = asTyped(name)
		}
		if b == &keys.Quit && !slices.Contains(typed, "ctrl+c") {
			typed = append(typed, "ctrl+c")
		}
		b.SetKeys(typed...)
		b.SetHelp(names[0], b.Help().Desc)
	}
	return keys
}

// asTyped returns the name that a key has in messages of the terminal.
func asTyped(name string) string {
	if name == "space" {
		return " "
	}
	return name
}

// sayAs gives a binding other words and leaves its key as it is.
func sayAs(b *key.Binding, words string) { b.SetHelp(b.Help().Key, words) }
