package ui

import (
	"errors"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/advice"
	"duskhand/checklist/inbox"
	"duskhand/checklist/journal"
	"duskhand/plan"
	"duskhand/sky"
	"duskhand/ui/clock"
	"duskhand/ui/draw"
	"duskhand/ui/facts"
	"duskhand/ui/form"
	"duskhand/ui/keys"
	"duskhand/ui/theme"
)

// show goes to a screen.
func (m Model) show(id keys.Screen) Model {
	m.screen, m.scroll, m.wandered = id, 0, false
	return m.deriveStars().deriveFrame().deriveSubs().deriveDecide().deriveSteps()
}

// Model is the whole program's state: a value, changed by Update alone.
type Model struct {
	config Config
	theme  theme.Theme
	keys   keys.Table
	grid   *draw.Grid // reused from frame to frame; View is its only user

	width, height int
	screen        keys.Screen
	digitsOnly    bool
	helping       bool
	helpFrom      int // the row of the sheet of keys that shows first
	scroll        int
	asking        *prompt
	notice        string   // stays until the next key
	warned        []string // by the checklist, and told
	unwritten     string   // why events wait in memory; stays until they are written

	now        time.Time
	reading    clock.Reading // of the last tick, for jumps of the clock
	generation int
	alerts     []facts.Alert // of the instant
	alarms     alarms
	heard      *facts.Run // the facts that the operator's programs have been told of

	store         eventStore // nil until the journal is open
	follows       string     // who writes the journal, if another program does
	orphaned      bool       // that program has ended
	date          plan.Date
	seen          int64 // ordinal of the last event that counts
	wrote         bool  // something was added to the journal since it was opened
	writing       bool
	begun         time.Time       // when that was
	pending       int             // how many events wait in memory to be written
	tried         time.Time       // when writing what waits in memory was tried last
	rereading     bool            // the night is being read again, and nothing is written meanwhile
	waiting       []utterance     // said while an event is being written
	leaving       bool            // as soon as all of that is written
	saidUnwritten bool            // who wanted to leave was told that events wait in memory
	letter        *inbox.Message  // whose saying that is, if a script's
	script        []journal.Event // what a replay has yet to say
	log           checklist.Night
	tonight       *facts.Tonight
	derived       time.Time // when tonight was
	run           facts.Run
	advice        advice.Advice // of the instant

	stars     facts.Stars // for the screens of stars; derived while one of them shows
	pair      int         // chosen in the list of pairs
	focusStar int         // chosen in the list of focus stars

	form    *form.Model // the questions of a new kit, nil before they were asked for
	forming bool        // they are shown

	frame  framer
	subs   watcher
	decide decider

	steps    []checklist.StepState
	step     int  // chosen in the list of steps
	nextStep int  // the one to do next; −1 when all are settled
	wandered bool // the operator has chosen another than the next

	sentences map[string]string // the night's facts, for the steps' sentences
}

// New returns the program before its first message.
func New(c Config) Model {
	now := c.Clock.Now()
	if len(c.Steps.All()) == 0 {
		c.Steps = checklist.Steps()
	}
	m := Model{config: c, theme: c.theme(), keys: keys.New(c.Kit.Keys), grid: draw.NewGrid(0, 0), now: now, reading: c.Clock.Reading(),
		date: plan.DateOf(c.Kit.Site.Place, now)}
	m.notice = m.offer()
	return m
}

// Init opens the journal and starts the clock. The first frame does not wait for either.
func (m Model) Init() tea.Cmd {
	return tea.Batch(openJournal(m.config, m.date, m.now), tick(m.config.Clock, m.generation))
}

// Update handles one message. It reads the clock once; everything in the frame sees that second.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	m.now = m.config.Clock.Now()
	m, jumped := m.watchClock()
	next, cmd := m.handle(msg)
	next, asks := next.askToDecide()
	next.keys = next.keys.In(next.keyState())
	next, programs := next.callPrograms()
	return next, tea.Batch(jumped, cmd, asks, programs)
}

func (m Model) handle(msg tea.Msg) (Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
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
	case journalOpenedMsg:
		return m.journalOpened(msg)
	case eventWrittenMsg:
		return m.eventWritten(msg)
	case eventsSeenMsg:
		return m.eventsSeen(msg)
	case nightOpenedMsg:
		return m.nightOpened(msg)
	case lettersTakenMsg:
		return m.lettersTaken(msg)
	case programsRanMsg:
		return m.programsRan(msg)
	case alarmRungMsg:
		if msg.err != nil {
			m.notice = msg.err.Error()
		}
		return m, nil
	case takenOverMsg:
		m.notice = msg.err.Error()
		return m, nil
	case answeredMsg:
		if msg.err != nil {
			m.notice = "a script could not be answered: " + msg.err.Error()
		}
		return m, nil
	case backedUpMsg:
		if msg.err != nil {
			m.notice = "the night's backup copy failed: " + msg.err.Error()
		}
		return m, nil
	case watchStartedMsg:
		return m.watchStarted(msg)
	case reportedMsg:
		return m.reported(msg)
	case pageSavedMsg:
		return m.pageSaved(msg)
	case filesCheckedMsg:
		return m.filesChecked(msg), nil
	case retriedMsg:
		return m.retried(msg)
	case form.ComputedMsg:
		return m.toForm(msg)
	case form.KeptMsg:
		return m.formKept(msg)
	case typedBeforeMsg:
		return m.fillForm(msg)
	case form.WrittenMsg:
		return m.kitWritten(msg)
	case kitOpenedMsg:
		return m.kitOpened(msg)
	case exampleClosedMsg:
		if msg.err != nil {
			m.notice = msg.err.Error()
		}
		return m, nil
	}
	return m.computed(msg)
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
		m.keys = m.keys.In(m.keyState())
		cmds = append(cmds, cmd)
	}
	return m, tea.Batch(cmds...)
}

// pressed handles a key: the prompt first, then the table of keys.
func (m Model) pressed(msg tea.KeyMsg) (Model, tea.Cmd) {
	if m.asking != nil {
		asking, want := m.asking.update(msg)
		m.asking = asking
		if want != nil {
			return want(m)
		}
		return m, nil
	}
	m.notice = ""
	if msg.Type == tea.KeyCtrlZ {
		return m, tea.Suspend
	}
	if m.forming {
		return m.toForm(msg)
	}
	if number, ok := screenNumber(msg); ok && !m.helping {
		return m.show(number), nil
	}
	action, possible := m.keys.Action(msg)
	if next, handled := m.framed(action); handled && !m.helping {
		return next, nil
	}
	if next, handled := m.decided(action); handled && !m.helping {
		return next, nil
	}
	if !possible && !m.helping {
		return m.inVain(msg), nil
	}
	return m.does(action)
}

// inVain is a key that does nothing now: it is told why. A window that only follows asks whether to write.
func (m Model) inVain(msg tea.KeyMsg) Model {
	if m.follows != "" && msg.Type != tea.KeyEsc {
		m.asking = m.askWhoWrites()
		return m
	}
	return m.refused(msg)
}

// does what a key is for, wherever it is pressed; what says something of the night is said.
func (m Model) does(action keys.Action) (Model, tea.Cmd) {
	switch {
	case action == keys.Quit:
		return m.leave()
	case action == keys.Help:
		m.helping, m.helpFrom = !m.helping, 0
	case m.helping && action == keys.Up:
		m = m.helped(-1)
	case m.helping && action == keys.Down:
		m = m.helped(+1)
	case m.helping:
		m.helping = false
	case action == keys.NextScreen:
		m = m.show((m.screen + 1) % keys.ScreenCount)
	case action == keys.Back:
		m = m.show((m.screen + keys.ScreenCount - 1) % keys.ScreenCount)
	case action == keys.Snooze:
		m = m.snooze()
	case action == keys.Steps:
		m = m.show(keys.StepsScreen)
	case action == keys.Open:
		return m.openHelping()
	case action == keys.NewKit:
		return m.openForm()
	case action == keys.Digits:
		m.digitsOnly = !m.digitsOnly
	case action == keys.KeepFraming:
		return m.keepFraming()
	case action == keys.Save:
		return m.savePage()
	case action == keys.DropFraming:
		m.frame.draft = nil
		return m.deriveFrame(), nil
	case action == keys.Up:
		m = m.moved(-1)
	case action == keys.Down:
		m = m.moved(+1)
	default:
		return m.said(action)
	}
	return m, nil
}

// said handles the keys that say what has happened.
func (m Model) said(action keys.Action) (Model, tea.Cmd) {
	switch action {
	case keys.Next:
		return m.sayNext()
	case keys.Derotator:
		return m.sayDerotator()
	case keys.Rewound:
		m.asking = m.askAngle("rewound to", m.offered(), func(to sky.Angle) intent { return saying(checklist.Rewound{To: to}) })
	case keys.Read:
		m.asking = m.askAngle("the derotator shows", nil, func(read sky.Angle) intent { return saying(checklist.Read{Angle: read}) })
	case keys.Skip:
		s, _ := m.chosenStep()
		m.asking = m.askReason("left out because", func(text string) checklist.Action { return checklist.SkipStep{Step: s.ID, Reason: text} })
	case keys.Fail:
		s, _ := m.chosenStep()
		m.asking = m.askReason("what went wrong", func(text string) checklist.Action { return checklist.FailStep{Step: s.ID, Note: text} })
	case keys.Note:
		m.asking = m.askReason("note", func(text string) checklist.Action { return checklist.WriteNote{Text: text} })
	case keys.Divide:
		m.asking = m.askDivide()
	case keys.Framing:
		m.asking = m.askFraming()
	case keys.Seen:
		m.asking = m.askSeen()
	case keys.Mosaic:
		m.asking = m.askGrid()
	case keys.Axes:
		m.asking = m.askSight()
	case keys.Level:
		m.asking = m.askLevel()
	case keys.Focused:
		if m.log.Subs != nil {
			m.notice = "subs are being taken; say that they have stopped, then focus"
			return m, nil
		}
		m.asking = m.askTemperature(true)
	case keys.Temperature:
		m.asking = m.askTemperature(false)
	case keys.Subs:
		if m.log.Subs != nil {
			return m.say(checklist.StopSubs{})
		}
		return m.say(checklist.StartSubs{})
	case keys.Humidity:
		m.asking = m.askHumidity()
	case keys.Target:
		if m.screen == keys.DecideScreen {
			return m.takeTarget()
		}
		return m.say(m.nextTarget())
	case keys.Undo:
		if m.frame.draft != nil {
			m.frame.draft = nil // what was entered last
			return m.deriveFrame(), nil
		}
		return m.say(checklist.Undo{})
	case keys.Redo:
		return m.say(checklist.Redo{})
	}
	return m, nil
}

// sayDerotator says it was turned off, or asks at which angle it was turned on, unless that is known.
func (m Model) sayDerotator() (Model, tea.Cmd) {
	if m.log.DerotatorOn && m.log.Subs != nil {
		m.asking = newPrompt("subs are being taken; derotator off all the same", "off", func(text string) (intent, error) {
			if text != "" {
				return nil, errors.New("enter says that it is off; esc leaves it")
			}
			return saying(checklist.TurnOff{}), nil
		})
		return m, nil
	}
	if m.log.DerotatorOn {
		return m.say(checklist.TurnOff{})
	}
	if m.log.Parked != nil {
		return m.say(checklist.TurnOn{})
	}
	m.asking = m.askAngle("derotator on at", m.offered(), func(at sky.Angle) intent { return saying(checklist.TurnOn{Angle: &at}) })
	return m, nil
}

// offered returns the angle that a rewind should go to, nil if none is left to make.
func (m Model) offered() *sky.Angle {
	if !m.run.Next().OK {
		return nil
	}
	to := m.run.Next().To
	return &to
}

// screenNumber returns the screen whose number was pressed.
func screenNumber(msg tea.KeyMsg) (s keys.Screen, ok bool) {
	if msg.Type != tea.KeyRunes || msg.Paste || len(msg.Runes) != 1 {
		return 0, false
	}
	s = keys.Screen(msg.Runes[0] - '1')
	return s, s >= 0 && s < keys.ScreenCount
}
