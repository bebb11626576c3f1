// Package keys is the one table of the keys of the screens: what each does, by which key, on which screens, with
// which words, and when. Handling, the sheet of keys, the footer, the kit's section [keys] and its reference come
// from it.
package keys

// Screen is one screen of the night.
type Screen int

// The screens, in the order in which tab goes through them.
const (
	RunScreen Screen = iota
	NightScreen
	StarsScreen
	FocusScreen
	FrameScreen
	SubsScreen
	DecideScreen
	AlarmsScreen
	StepsScreen
	ScreenCount
)

// String returns the screen by the name that the steps of the checklist have for it.
func (s Screen) String() string {
	return [...]string{"run", "night", "two stars", "focus star", "frame", "subs", "decide", "alarms",
		"steps"}[s]
}

// Room is the screen in one word, for the line of rooms.
func (s Screen) Room() string {
	return [...]string{"run", "night", "stars", "focus", "frame", "subs", "decide", "alarms", "steps"}[s]
}

// ScreenNamed returns the screen of a name; ok is false if there is none.
func ScreenNamed(name string) (s Screen, ok bool) {
	for s := range ScreenCount {
		if s.String() == name {
			return s, true
		}
	}
	return 0, false
}

// allBut are all screens but one.
func allBut(one Screen) (others []Screen) {
	for s := range ScreenCount {
		if s != one {
			others = append(others, s)
		}
	}
	return others
}
