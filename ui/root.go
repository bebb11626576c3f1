package ui

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/sky"
	"duskhand/ui/form"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
	"duskhand/ui/session"
	"duskhand/ui/sheet"
	"duskhand/ui/theme"
)

// Model is the whole program's state: a value, changed by Update alone. It owns the window, what is asked and told, and
// which room is open; the night is the session's.
type Model struct {
	config Config
	theme  theme.Theme
	night  session.Session
	rooms  rooms

	generation int // of the ticks
	helping    bool
	sheet      sheet.Sheet // of keys
	asking     *screens.Prompt
	form       *form.Model // the questions of a new kit, nil before they were asked for
	forming    bool        // they are shown
}

// New returns the program before its first message.
func New(c Config) Model {
	if len(c.Steps.All()) == 0 {
		c.Steps = checklist.Steps()
	}
	m := Model{config: c, theme: c.theme(), rooms: newRooms(c), night: session.New(c.session(), c.Charset)}
	if m.night.Notice = m.offer(); m.night.Notice == "" {
		m.night.Notice = c.Opening
	}
	return m
}

// Init opens the journal and starts the clock. The first frame does not wait for either.
func (m Model) Init() tea.Cmd {
	return tea.Batch(m.night.Open(), tick(m.config.Clock, m.generation))
}

// Update handles one message. It reads the clock once; everything in the frame sees that second.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	var jumped tea.Cmd
	m.night, jumped = m.night.At()
	next, cmd := m.handle(msg)
	next, asks := next.settled()
	var programs tea.Cmd
	next.night, programs = next.night.CallPrograms()
	return next, tea.Batch(jumped, cmd, asks, programs)
}

// settled ends an instant: the room that shows may have things computed, and the keys are those that can be pressed.
func (m Model) settled() (Model, tea.Cmd) {
	m.night = m.night.Marked()
	next, cmd := m.hand(m.night.Status.Screen, screens.Settled{})
	next.night.Status.Keys = next.night.Status.Keys.In(next.keyState())
	return next, cmd
}

func (m Model) handle(msg tea.Msg) (Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.night.Status.Width, m.night.Status.Height = msg.Width, msg.Height
		return m, nil
	case tickMsg:
		return m.ticked(msg)
	case tea.ResumeMsg:
		m.generation++
		return m, tick(m.config.Clock, m.generation)
	case tea.MouseMsg:
		return m.pointed(msg)
	case tea.KeyMsg:
		return m.pressedAll(msg)
	case form.ComputedMsg, form.BeforeMsg:
		return m.toForm(msg)
	case form.KeptMsg:
		return m.formKept(msg)
	case form.WrittenMsg:
		return m.kitWritten(msg)
	case kitOpenedMsg:
		return m.kitOpened(msg)
	case nightClosedMsg:
		if msg.err != nil {
			m.night.Notice = msg.err.Error()
		}
		return m, m.Init()
	}
	return m.passed(msg)
}

// ticked is a second of the night.
func (m Model) ticked(msg tickMsg) (Model, tea.Cmd) {
	if msg.generation != m.generation {
		return m, nil
	}
	next, cmd := m.passed(session.Second{})
	if !next.night.IsOpen() {
		return next, tea.Batch(tick(m.config.Clock, m.generation), cmd)
	}
	next, more := next.handAll(screens.Second{})
	return next, tea.Batch(tick(m.config.Clock, m.generation), cmd, more)
}

// passed gives a message to the session, or, if it is none of its own, to the rooms.
func (m Model) passed(msg tea.Msg) (Model, tea.Cmd) {
	var cmd tea.Cmd
	var ok bool
	if m.night, cmd, ok = m.night.Update(msg); !ok {
		return m.handAll(msg)
	}
	var wants session.Wants
	m.night, wants = m.night.Ask()
	switch {
	case wants.Open:
		m = m.show(m.night.Status.Opening())
	case wants.Changed:
		m = m.follow(screens.Changed{})
	}
	if wants.AskWriter && m.asking == nil {
		m = m.ask(m.night.Status.AskWhoWrites())
	}
	return m, cmd
}

// pressedAll handles the keys of a message: a terminal hands over in one what came in one reading, as a key
// held down does on a slow line.
func (m Model) pressedAll(msg tea.KeyMsg) (Model, tea.Cmd) {
	if msg.Type != tea.KeyRunes || msg.Paste || len(msg.Runes) < 2 {
		return m.pressed(msg)
	}
	var cmds []tea.Cmd
	for _, r := range msg.Runes {
		one := msg
		one.Runes = []rune{r}
		var cmd tea.Cmd
		m, cmd = m.pressed(one)
		m.night.Status.Keys = m.night.Status.Keys.In(m.keyState())
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// pressed handles a key: the prompt first, then the table of keys.
func (m Model) pressed(msg tea.KeyMsg) (Model, tea.Cmd) {
	if m.asking != nil {
		asking, want, over := m.asking.Update(msg)
		if m.asking = &asking; over {
			m.asking = nil
		}
		return m.obey(want)
	}
	m.night.Notice = ""
	if msg.Type == tea.KeyCtrlZ {
		return m, tea.Suspend
	}
	if m.forming {
		return m.toForm(msg)
	}
	if number, ok := screenNumber(msg); ok && !m.helping {
		return m.show(number), nil
	}
	action, possible := m.night.Status.Keys.Action(msg)
	if !possible && !m.helping {
		return m.inVain(msg), nil
	}
	return m.does(action)
}

// inVain is a key that does nothing now: it is told why. A window that only follows asks whether to write.
func (m Model) inVain(msg tea.KeyMsg) Model {
	if m.night.Status.Follows != "" && msg.Type != tea.KeyEsc {
		return m.ask(m.night.Status.AskWhoWrites())
	}
	return m.refused(msg)
}

// does what a key is for, wherever it is pressed; what says something of the night is said.
func (m Model) does(action keys.Action) (Model, tea.Cmd) {
	switch {
	case action == keys.Quit:
		return m.leave()
	case action == keys.Help:
		m.helping, m.sheet = !m.helping, sheet.Sheet{}
	case m.helping && action == keys.Up:
		m = m.moveSheet(-1)
	case m.helping && action == keys.Down:
		m = m.moveSheet(+1)
	case m.helping:
		m.helping = false
	case action == keys.NextScreen:
		m = m.show((m.night.Status.Screen + 1) % keys.ScreenCount)
	case action == keys.Back:
		m = m.show((m.night.Status.Screen + keys.ScreenCount - 1) % keys.ScreenCount)
	case action == keys.Snooze:
		m.night.Status.Bell, m.night.Notice = m.night.Status.Bell.Snooze(m.night.Status.Now,
			m.night.Status.Kit.Alarm, m.night.Status.Zone())
	case action == keys.Steps:
		m = m.show(keys.StepsScreen)
	case action == keys.NewKit:
		return m.openForm()
	default:
		return m.said(action)
	}
	return m, nil
}

// said handles the keys that say what has happened, on whatever screen; all others are the room's that shows.
func (m Model) said(action keys.Action) (Model, tea.Cmd) {
	switch action {
	case keys.Next:
		var cmd tea.Cmd
		m.night, cmd = m.night.SayNext(m.likely().Action)
		return m, cmd
	case keys.Derotator:
		return m.sayDerotator()
	case keys.Rewound:
		return m.ask(m.night.Status.AskAngle("rewound to", m.offered(),
			func(to sky.Angle) checklist.Action { return checklist.Rewound{To: to} })), nil
	case keys.Read:
		return m.ask(m.night.Status.AskAngle("the derotator shows", nil,
			func(read sky.Angle) checklist.Action { return checklist.Read{Angle: read} })), nil
	case keys.Note:
		return m.ask(screens.AskReason("note", func(text string) checklist.Action { return checklist.WriteNote{Text: text} })), nil
	case keys.Divide:
		return m.ask(m.night.Status.AskDivide()), nil
	case keys.Subs:
		if m.night.Status.Log.Subs != nil {
			return m.say(checklist.StopSubs{})
		}
		return m.say(checklist.StartSubs{})
	case keys.Undo:
		if next, dropped := m.dropDraft(); dropped {
			return next, nil
		}
		return m.say(checklist.Undo{})
	case keys.Redo:
		return m.say(checklist.Redo{})
	case keys.Target:
		if m.night.Status.Screen != keys.DecideScreen {
			return m.say(m.nextTarget())
		}
	}
	return m.hand(m.night.Status.Screen, screens.Pressed{Action: action})
}

// sayDerotator says it was turned off, or asks at which angle it was turned on, unless that is known.
func (m Model) sayDerotator() (Model, tea.Cmd) {
	if m.night.Status.Log.DerotatorOn && m.night.Status.Log.Subs != nil {
		return m.ask(screens.AskOffAll()), nil
	}
	if m.night.Status.Log.DerotatorOn {
		return m.say(checklist.TurnOff{})
	}
	if m.night.Status.Log.Parked != nil {
		return m.say(checklist.TurnOn{})
	}
	return m.ask(m.night.Status.AskAngle("derotator on at", m.offered(),
		func(at sky.Angle) checklist.Action { return checklist.TurnOn{Angle: &at} })), nil
}

// offered returns the angle that a rewind should go to, nil if none is left to make.
func (m Model) offered() *sky.Angle {
	if !m.night.Status.Run.Next().OK {
		return nil
	}
	to := m.night.Status.Run.Next().To
	return &to
}

// screenNumber returns the screen whose number was pressed.
func screenNumber(msg tea.KeyMsg) (s keys.Screen, ok bool) {
	if msg.Type != tea.KeyRunes || msg.Paste || msg.Alt || len(msg.Runes) != 1 {
		return 0, false
	}
	s = keys.Screen(msg.Runes[0] - '1')
	return s, s >= 0 && s < keys.ScreenCount
}

// say has an action written to the journal.
func (m Model) say(action checklist.Action) (Model, tea.Cmd) {
	var cmd tea.Cmd
	m.night, cmd = m.night.Say(action)
	return m, cmd
}

// leave quits once all that was said or typed is written. Asked a second time it quits at once: the disk may hang.
func (m Model) leave() (Model, tea.Cmd) {
	if m.night.Leaving() {
		return m, tea.Quit
	}
	if m.night.LosesWhatWasSaid() {
		return m.ask(m.night.Status.AskLeave()), nil
	}
	var words string
	if m.night, words = m.night.Refuses(); words != "" {
		m.night.Notice = words
		return m, nil
	}
	m, kept := m.keepDrafts()
	m.night.Keeps = m.keepsForm()
	next, cmd := m.night.Leave()
	m.night = next
	if !next.Leaving() {
		return m, cmd
	}
	return m, kept
}
