package kit

// OnEvent binds a program of the person's own to something that happens in the night: Event is one of
// NightEvents, Command the program and its arguments. One event may have several.
type OnEvent struct {
	Event   string
	Command []string
}

// What programs can be bound to.
const (
	LimitNear  = "limit-near"  // the alarm's warning time before a rewind
	RewindDue  = "rewind-due"  // the rewind must be made now
	Rewound    = "rewound"     // the derotator has been turned back
	RunStarted = "run-started" // the derotator tracks from an angle that is known
	TargetDone = "target-done" // every filter has the subs that the kit wants
)

// NightEvents returns what programs can be bound to.
func NightEvents() []string { return []string{LimitNear, RewindDue, Rewound, RunStarted, TargetDone} }

// Bound returns the commands that are bound to an event, in the order of the file.
func (k Kit) Bound(event string) (commands [][]string) {
	for _, on := range k.On {
		if on.Event == event {
			commands = append(commands, on.Command)
		}
	}
	return commands
}
