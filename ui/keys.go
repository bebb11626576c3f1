package ui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
)

// keyMap is every key of the screens, with its help. Handling, footer and help read this one table; what
// is not possible now is disabled in it.
type keyMap struct {
	Next, Derotator, Rewound, Read, Subs, Target, Undo, Redo key.Binding
	Axes, Level, Focused, Temperature, Skip, Fail, Note      key.Binding
	Left, Right, TurnBack, TurnOn, TurnBackFar, TurnOnFar    key.Binding
	Divide, Snooze                                           key.Binding
	PageOn, PageBack, TypeOn, TypeBack, OneRun, Fits, Find   key.Binding
	Humidity                                                 key.Binding
	Closer, Wider, AsSeen, Middle, Keep                      key.Binding
	Framing, Seen, Grid, KeepFraming, DropFraming, Save      key.Binding
	Steps, Open, Back                                        key.Binding
	Screen, Number, Digits, Up, Down, NewKit, Help, Quit     key.Binding
}

func defaultKeys() keyMap {
	bind := func(words string, keys ...string) key.Binding {
		shown := keys[0]
		if shown == " " {
			shown = "space"
		}
		return key.NewBinding(key.WithKeys(keys...), key.WithHelp(shown, words))
	}
	keys := keyMap{
		Next:        bind("say that the next thing is done", " "),
		Derotator:   bind("derotator turned on, or off", "o"),
		Rewound:     bind("rewound: to the proposed angle or another", "r"),
		Read:        bind("read the derotator's angle", "a"),
		Subs:        bind("subs started, or stopped", "s"),
		Target:      bind("next target", "t"),
		Undo:        bind("undo what was said last", "u"),
		Redo:        bind("take the undo back", "y"),
		Axes:        bind("axis readouts with a star centred", "x"),
		Level:       bind("slope of the base, by a level", "l"),
		Focused:     bind("both telescopes focused", "f"),
		Temperature: bind("temperature, by the thermometer", "c"),
		Skip:        bind("leave the step out, and why", "m"),
		Fail:        bind("the step went wrong, and how", "w"),
		Note:        bind("note something", "n"),
		Snooze:      bind("alarms that are on quiet for a while, or again", "z"),
		Divide:      bind("divide the night among the targets", "/"),
		Left:        bind("frame to the left", "left"),
		Right:       bind("frame to the right", "right"),
		TurnBack:    bind("wanted angle a degree less", ","),
		TurnOn:      bind("a degree more", "."),
		TurnBackFar: bind("ten degrees less", "<"),
		TurnOnFar:   bind("ten degrees more", ">"),
		PageOn:      bind("next page", "right"),
		PageBack:    bind("page before", "left"),
		TypeOn:      bind("only the next kind of object", "."),
		TypeBack:    bind("only the kind before", ","),
		OneRun:      bind("only what lasts one run, or all", "d"),
		Fits:        bind("only what fits the chip, or all", "f"),
		Find:        bind("a constellation or a name", "i"),
		Humidity:    bind("humidity, by the hygrometer", "h"),
		Closer:      bind("closer", "+", "="),
		Wider:       bind("wider", "-"),
		AsSeen:      bind("north up, or as the camera sees it", "v"),
		Middle:      bind("object in the middle again", "0"),
		Keep:        bind("which runs keep the wanted angle", "d"),
		Framing:     bind("wanted angle and middle in numbers", "e"),
		Seen:        bind("where the picture shows the object", "i"),
		Grid:        bind("a mosaic of several fields", "#"),
		KeepFraming: bind("keep the framing", "enter"),
		DropFraming: bind("drop what is not kept", "esc"),
		Save:        bind("save the page as a picture", "p"),
		Steps:       bind("the steps of the night", "b"),
		Open:        bind("the screen that helps with the step", "enter"),
		Screen:      bind("next screen", "tab"),
		Number:      bind("a screen by its number", "1", "2", "3", "4", "5", "6", "7", "8", "9"),
		Back:        bind("screen before", "shift+tab"),
		Digits:      bind("digits only, and back", "g"),
		Up:          bind("up the list", "up", "k"),
		Down:        bind("down the list", "down", "j"),
		NewKit:      bind("make a kit of your own", "K"),
		Help:        bind("these keys", "?"),
		Quit:        bind("leave; nothing said is lost", "q", "ctrl+c"),
	}
	keys.Number.SetHelp(fmt.Sprintf("1 to %d", screenCount), keys.Number.Help().Desc)
	return keys
}

// all returns the bindings in the order of the help.
func (k *keyMap) all() []*key.Binding {
	return []*key.Binding{&k.Next, &k.Derotator, &k.Rewound, &k.Read, &k.Subs, &k.Target, &k.Undo, &k.Redo, &k.Divide, &k.Snooze,
		&k.Axes, &k.Level, &k.Focused, &k.Temperature, &k.Humidity,
		&k.PageOn, &k.PageBack, &k.TypeOn, &k.TypeBack, &k.OneRun, &k.Fits, &k.Find,
		&k.Left, &k.Right, &k.TurnBack, &k.TurnOn, &k.TurnBackFar, &k.TurnOnFar, &k.Closer, &k.Wider, &k.AsSeen, &k.Middle,
		&k.Keep, &k.Framing, &k.Seen, &k.Grid, &k.KeepFraming, &k.DropFraming, &k.Save,
		&k.Skip, &k.Fail, &k.Note, &k.Steps, &k.Open, &k.Screen, &k.Back, &k.Number, &k.Digits, &k.Up, &k.Down, &k.NewKit, &k.Help, &k.Quit}
}

// enabled returns the table with the bindings set that make sense in the state.
func (k keyMap) enabled(m Model) keyMap {
	ready := m.store != nil && m.tonight != nil && m.follows == ""
	k.Next.SetEnabled(ready && m.likely().words != "")
	for _, b := range []*key.Binding{&k.Derotator, &k.Rewound, &k.Read} {
		b.SetEnabled(ready)
	}
	k.Subs.SetEnabled(ready && (m.log.DerotatorOn || m.log.Subs != nil))
	k.Target.SetEnabled(ready && len(m.config.Kit.Targets) > 1)
	k.Divide.SetEnabled(ready && len(m.config.Kit.Targets) > 1)
	k.Undo.SetEnabled(ready && m.log.Undoable != nil)
	k.Redo.SetEnabled(ready && m.log.Redoable != nil)
	k.Digits.SetEnabled(m.screen == runScreen)
	k.Axes.SetEnabled(ready && m.screen == starsScreen)
	k.Level.SetEnabled(ready && m.screen == starsScreen)
	k.Focused.SetEnabled(ready && m.screen == focusScreen)
	k.Temperature.SetEnabled(ready && (m.screen == focusScreen || m.airRead()))
	k.Humidity.SetEnabled(ready && m.airRead())
	for _, b := range []*key.Binding{&k.PageOn, &k.PageBack, &k.TypeOn, &k.TypeBack, &k.OneRun, &k.Fits, &k.Find} {
		b.SetEnabled(m.tonight != nil && m.screen == decideScreen)
	}
	sayAs(&k.Target, "next target")
	if m.screen == decideScreen {
		_, chosen := m.choice()
		k.Target.SetEnabled(ready && chosen)
		sayAs(&k.Target, "take the chosen target for tonight")
	}
	for _, b := range []*key.Binding{&k.Skip, &k.Fail} {
		b.SetEnabled(ready && m.screen == stepsScreen && len(m.steps) > 0)
	}
	framing := m.tonight != nil && m.screen == frameScreen
	for _, b := range []*key.Binding{&k.Left, &k.Right, &k.TurnBack, &k.TurnOn, &k.TurnBackFar, &k.TurnOnFar, &k.Closer, &k.Wider,
		&k.AsSeen, &k.Middle, &k.Keep, &k.Framing, &k.Seen, &k.Grid, &k.Save} {
		b.SetEnabled(framing && ready)
	}
	k.KeepFraming.SetEnabled(framing && m.frame.draft != nil)
	k.DropFraming.SetEnabled(framing && m.frame.draft != nil)
	k.Note.SetEnabled(ready)
	k.Steps.SetEnabled(ready && m.screen != stepsScreen)
	k.Open.SetEnabled(ready && m.screen == stepsScreen)
	sayAs(&k.Up, "up the list")
	sayAs(&k.Down, "down the list")
	if framing {
		sayAs(&k.Up, "frame up")
		sayAs(&k.Down, "frame down")
	}
	k.NewKit.SetEnabled(m.config.NewKit != nil)
	k.Up.SetEnabled(m.screen != runScreen || m.helping)
	k.Down.SetEnabled(m.screen != runScreen || m.helping)
	return k
}
