package keys

import "slices"

// What keys do.
const (
	Next        Action = "next"
	Derotator   Action = "derotator"
	Rewound     Action = "rewound"
	Read        Action = "read"
	Subs        Action = "subs"
	Target      Action = "target"
	Undo        Action = "undo"
	Redo        Action = "redo"
	Divide      Action = "divide"
	Snooze      Action = "snooze"
	Axes        Action = "axes"
	Level       Action = "level"
	Focused     Action = "focused"
	Temperature Action = "temperature"
	Humidity    Action = "humidity"
	PageOn      Action = "page_on"
	PageBack    Action = "page_back"
	TypeOn      Action = "type_on"
	TypeBack    Action = "type_back"
	OneRun      Action = "one_run"
	Fits        Action = "fits"
	Find        Action = "find"
	Left        Action = "frame_left"
	Right       Action = "frame_right"
	TurnBack    Action = "turn_back"
	TurnOn      Action = "turn_on"
	TurnBackFar Action = "turn_back_far"
	TurnOnFar   Action = "turn_on_far"
	Closer      Action = "closer"
	Wider       Action = "wider"
	AsSeen      Action = "as_seen"
	Middle      Action = "middle"
	Keep        Action = "keep_angle"
	Framing     Action = "framing"
	Seen        Action = "seen"
	Mosaic      Action = "mosaic"
	KeepFraming Action = "keep_framing"
	DropFraming Action = "drop_framing"
	Save        Action = "save"
	Skip        Action = "skip"
	Fail        Action = "fail"
	Note        Action = "note"
	Steps       Action = "steps"
	Open        Action = "open"
	ToNext      Action = "to_next"
	Card        Action = "card"
	NextScreen  Action = "screen"
	Back        Action = "back"
	Number      Action = "number"
	Digits      Action = "digits"
	Up          Action = "up"
	Down        Action = "down"
	NewKit      Action = "new_kit"
	Help        Action = "help"
	Quit        Action = "quit"
)

// What many rows hang on.
func always(State) bool   { return true }
func read(s State) bool   { return s.Read }
func writes(s State) bool { return s.Writes }

// What single rows hang on.
func offers(s State) bool        { return s.Writes && s.Offers }
func takesSubs(s State) bool     { return s.Writes && (s.On || s.Subs) }
func undoes(s State) bool        { return s.Writes && s.Undoable }
func redoes(s State) bool        { return s.Writes && s.Redoable }
func divides(s State) bool       { return s.Writes && s.Targets > 1 }
func readsAir(s State) bool      { return s.Writes && (s.Screen == FocusScreen || s.Air) }
func readsHumidity(s State) bool { return s.Writes && s.Air }
func drafts(s State) bool        { return s.Read && s.Draft }
func isElsewhere(s State) bool   { return s.Elsewhere }
func hasSteps(s State) bool      { return s.Writes && s.Steps }
func rings(s State) bool         { return s.Rings }
func makesKit(s State) bool      { return s.NewKit }

func choosesTarget(s State) bool {
	if s.Screen == DecideScreen {
		return s.Writes && s.Chosen
	}
	return s.Writes && s.Targets > 1
}

// on are the screens of a row.
func on(screens ...Screen) []Screen { return screens }

// Rows returns the table, in the order of the sheet of keys and of the kit's reference.
func Rows() []Row {
	return slices.Concat(sayingRows(), starRows(), decideRows(), frameRows(), stepRows(), movingRows())
}

// sayingRows are the keys of what has happened, on every screen.
func sayingRows() []Row {
	return []Row{
		{Action: Next, Keys: []string{"space"}, Help: "say that the next thing is done",
			Says: true, Place: 1, When: offers},
		{Action: Derotator, Keys: []string{"o"}, Help: "derotator turned on, or off",
			Says: true, When: writes},
		{Action: Rewound, Keys: []string{"r"}, Help: "rewound: to the proposed angle or another",
			Says: true, When: writes},
		{Action: Read, Keys: []string{"a"}, Help: "read the derotator's angle", Says: true, When: writes},
		{Action: Subs, Keys: []string{"s"}, Help: "subs started, or stopped", Says: true, When: takesSubs},
		{Action: Target, Keys: []string{"t"}, Help: "next target",
			Says: true, HelpOn: map[Screen]string{DecideScreen: "take the chosen target for tonight"},
			InKit: "next target, or the one chosen on the screen decide", When: choosesTarget},
		{Action: Undo, Keys: []string{"u"}, Help: "undo what was said last",
			Says: true, Place: 2, When: undoes},
		{Action: Redo, Keys: []string{"y"}, Help: "take the undo back", Says: true,
			Short: "undo no more", Place: 3, When: redoes},
		{Action: Divide, Keys: []string{"/"}, Help: "divide the night among the targets",
			Says: true, When: divides},
		{Action: Snooze, Keys: []string{"z"}, Help: "alarms that are on quiet for a while, or again",
			Short: "quiet", Place: 4, Named: rings, When: always},
	}
}

// starRows are the keys of stars, axis, focus and air.
func starRows() []Row {
	return []Row{
		{Action: Axes, Keys: []string{"x"}, On: on(StarsScreen), Help: "axis readouts with a star centred",
			Says: true, Short: "axes of a star", Place: 5, When: writes},
		{Action: Level, Keys: []string{"l"}, On: on(StarsScreen), Help: "slope of the base, by a level",
			Says: true, Short: "level", Place: 6, When: writes},
		{Action: Focused, Keys: []string{"f"}, On: on(FocusScreen), Help: "both telescopes focused",
			Says: true, Short: "focused", Place: 7, When: writes},
		{Action: Temperature, Keys: []string{"c"}, On: on(FocusScreen, DecideScreen),
			Help: "temperature, by the thermometer",
			Says: true, Short: "temperature", Place: 9, When: readsAir},
		{Action: Humidity, Keys: []string{"h"}, On: on(DecideScreen), Help: "humidity, by the hygrometer",
			Says: true, Short: "humidity", Place: 10, When: readsHumidity},
	}
}

// decideRows are the keys of the screen decide.
func decideRows() []Row {
	return []Row{
		{Action: PageOn, Keys: []string{"right"}, On: on(DecideScreen), Help: "next page",
			Short: "page", Place: 8, When: read},
		{Action: PageBack, Keys: []string{"left"}, On: on(DecideScreen), Help: "page before", When: read},
		{Action: TypeOn, Keys: []string{"."}, On: on(DecideScreen), Help: "only the next kind of object",
			When: read},
		{Action: TypeBack, Keys: []string{","}, On: on(DecideScreen), Help: "only the kind before",
			When: read},
		{Action: OneRun, Keys: []string{"d"}, On: on(DecideScreen), Help: "only what lasts one run, or all",
			When: read},
		{Action: Fits, Keys: []string{"f"}, On: on(DecideScreen), Help: "only what fits the chip, or all",
			When: read},
		{Action: Find, Keys: []string{"i"}, On: on(StarsScreen, FocusScreen, DecideScreen, StepsScreen),
			Help:   "find in the list by typing",
			HelpOn: map[Screen]string{DecideScreen: "a constellation or a name"},
			InKit:  "find in a list by typing; on the screen decide a constellation or a name", When: read},
	}
}

// frameRows are the keys of the screen frame.
func frameRows() []Row {
	return []Row{
		{Action: Left, Keys: []string{"left"}, On: on(FrameScreen), Help: "frame to the left",
			When: writes},
		{Action: Right, Keys: []string{"right"}, On: on(FrameScreen), Help: "frame to the right",
			When: writes},
		{Action: TurnBack, Keys: []string{","}, On: on(FrameScreen), Help: "wanted angle a degree less",
			When: writes},
		{Action: TurnOn, Keys: []string{"."}, On: on(FrameScreen), Help: "a degree more",
			Short: "turn", Place: 13, When: writes},
		{Action: TurnBackFar, Keys: []string{"<"}, On: on(FrameScreen), Help: "ten degrees less",
			When: writes},
		{Action: TurnOnFar, Keys: []string{">"}, On: on(FrameScreen), Help: "ten degrees more",
			When: writes},
		{Action: Closer, Keys: []string{"+", "="}, On: on(FrameScreen), Help: "closer", When: writes},
		{Action: Wider, Keys: []string{"-"}, On: on(FrameScreen), Help: "wider", When: writes},
		{Action: AsSeen, Keys: []string{"v"}, On: on(FrameScreen), Help: "north up, or as the camera sees it",
			When: writes},
		{Action: Middle, Keys: []string{"0"}, On: on(FrameScreen), Help: "object in the middle again",
			When: writes},
		{Action: Keep, Keys: []string{"d"}, On: on(FrameScreen), Help: "which runs keep the wanted angle",
			When: writes},
		{Action: Framing, Keys: []string{"e"}, On: on(FrameScreen), Help: "wanted angle and middle in numbers",
			Says: true, Short: "in numbers", Place: 12, When: writes},
		{Action: Seen, Keys: []string{"i"}, On: on(FrameScreen), Help: "where the picture shows the object",
			Says: true, When: writes},
		{Action: Mosaic, Keys: []string{"#"}, On: on(FrameScreen), Help: "a mosaic of several fields",
			Says: true, When: writes},
		{Action: KeepFraming, Keys: []string{"enter"}, On: on(FrameScreen), Help: "keep the framing",
			Short: "keep it", Place: 11, When: drafts},
		{Action: DropFraming, Keys: []string{"esc"}, On: on(FrameScreen), Help: "drop what is not kept",
			When: drafts},
		{Action: Save, Keys: []string{"p"}, On: on(FrameScreen), Help: "save the page as a picture",
			Says: true, When: writes},
	}
}

// stepRows are the keys of the steps and notes.
func stepRows() []Row {
	return []Row{
		{Action: Skip, Keys: []string{"m"}, On: on(StepsScreen), Help: "leave the step out, and why",
			Says: true, Short: "leave out", Place: 14, When: hasSteps},
		{Action: Fail, Keys: []string{"w"}, On: on(StepsScreen), Help: "the step went wrong, and how",
			Says: true, When: hasSteps},
		{Action: ToNext, Keys: []string{"esc"}, On: on(StepsScreen), Help: "back to the step that is next",
			When: isElsewhere},
		{Action: Card, Keys: []string{"c"}, On: on(StepsScreen), Help: "the card for the hand control",
			Short: "card", Place: 19, When: read},
		{Action: Note, Keys: []string{"n"}, Help: "note something", Says: true, When: writes},
		{Action: Steps, Keys: []string{"b"}, On: allBut(StepsScreen), Help: "the steps of the night",
			Short: "steps", Place: 18, When: writes},
		{Action: Open, Keys: []string{"enter"}, On: on(StepsScreen),
			Help:  "the screen that helps with the step",
			Short: "open", Place: 15, When: writes},
	}
}

// movingRows are the keys of screens, lists and the program.
func movingRows() []Row {
	return []Row{
		{Action: NextScreen, Keys: []string{"tab"}, Help: "next screen",
			Short: "next screen", Place: 16, When: always},
		{Action: Back, Keys: []string{"shift+tab"}, Help: "screen before", When: always},
		{Action: Number, Keys: []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"},
			Help:  "a screen by its number",
			Fixed: true, When: always},
		{Action: Digits, Keys: []string{"g"}, On: on(RunScreen), Help: "digits only, and back",
			Short: "digits only", Place: 17, When: always},
		{Action: Up, Keys: []string{"up", "k"}, On: allBut(RunScreen), Help: "up the list",
			HelpOn: map[Screen]string{FrameScreen: "frame up"},
			InKit:  "up the list, or the frame up", Sheet: true, When: always},
		{Action: Down, Keys: []string{"down", "j"}, On: allBut(RunScreen), Help: "down the list",
			HelpOn: map[Screen]string{FrameScreen: "frame down"},
			InKit:  "down the list, or the frame down", Sheet: true, When: always},
		{Action: NewKit, Keys: []string{"K"}, Help: "make a kit of your own, or change it",
			InKit: "make a kit of your own in the example night; change the kit in a night of your own",
			Short: "the kit", Place: 20, When: makesKit},
		{Action: Help, Keys: []string{"?"}, Help: "these keys", Short: "keys", Place: 21,
			Pinned: true, When: always},
		{Action: Quit, Keys: []string{"q"}, Help: "leave; nothing said is lost",
			Short: "leave", Place: 22, Pinned: true, When: always},
	}
}
