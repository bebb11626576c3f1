package ui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/checklist/frames/place"
	"duskhand/checklist/subs"
	"duskhand/checklist/subs/arrival"
	"duskhand/checklist/subs/survey"
	"duskhand/checklist/subs/watch"
	"duskhand/ui/facts"
)

// Watching the folders that the capture computer writes to.

// watcher is what the watch and the Subs screen keep.
type watcher struct {
	facts    facts.Subs
	told     arrival.Told
	survey   survey.Survey
	stop     context.CancelFunc  // nil while nothing is watched
	pointing *place.Pointing     // where the watch looks for what a light shows; nil while nothing is watched
	trouble  string              // what can't be looked at
	blind    bool                // a folder can't be
	weighed  time.Time           // when the frames were last held against the clock
	more     <-chan watch.Report // what it has to say next, while something is being written
	free     *uint64             // bytes on the disk of the first folder; nil if nobody knows
}

// workers is how many frames are measured at a time, each on two cores: a sub takes far longer than either.
const workers, goroutines = 1, 2

// startWatching watches the kit's folders for the program that writes the night.
func (m Model) startWatching() (Model, tea.Cmd) {
	folders := m.config.Kit.Watch.Folders
	if len(folders) == 0 || !m.config.onDisk() || m.follows != "" || m.subs.stop != nil || m.tonight == nil {
		return m, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	m.subs.stop, m.subs.survey, m.subs.pointing = stop, survey.New(m.config.Kit), &place.Pointing{}
	m.sayPointing()
	settings := watch.Settings{
		Folders: folders, Read: place.Reading(survey.Reading(goroutines, m.config.Kit.MostPixels()), m.config.Kit, m.subs.pointing), Now: m.config.Clock.Now, After: time.After,
		Since: m.tonight.Night.Span.From, Poll: m.config.Kit.Watch.Poll, Workers: workers,
	}
	settings.Known = survey.Known(m.log)
	start := m.config.Watch
	if start == nil {
		start = watch.Start
	}
	return m, func() tea.Msg {
		reports, err := start(ctx, settings)
		return watchStartedMsg{reports, err}
	}
}

// sayPointing tells the watch where the telescope may look, as the night has it now.
func (m Model) sayPointing() {
	if m.subs.pointing != nil {
		m.subs.pointing.Set(m.run.Sought(m.stars))
	}
}

// stopWatching ends the watch; what it still has to say is not heard.
func (m Model) stopWatching() Model {
	if m.subs.stop != nil {
		m.subs.stop()
	}
	m.subs = watcher{}
	return m
}

// listen waits for the next thing that the watch has to say, and looks how much room the disk has.
func listen(reports <-chan watch.Report, folder string) tea.Cmd {
	return func() tea.Msg {
		report, ok := <-reports
		if !ok {
			return nil
		}
		msg := reportedMsg{report: report, reports: reports}
		if free, err := watch.FreeBytes(folder); err == nil {
			msg.free = &free
		}
		return msg
	}
}

func (m Model) watchStarted(msg watchStartedMsg) (Model, tea.Cmd) {
	if msg.err != nil {
		m.subs.trouble, m.notice = msg.err.Error(), "the subs can't be watched: "+msg.err.Error()
		return m, nil
	}
	return m, listen(msg.reports, m.config.Kit.Watch.Folders[0])
}

func (m Model) reported(msg reportedMsg) (Model, tea.Cmd) {
	if m.subs.stop == nil { // of a watch that has ended
		return m, nil
	}
	m.subs.free = msg.free
	var cmd tea.Cmd
	switch {
	case msg.report.Trouble != nil:
		m = m.troubled(*msg.report.Trouble)
	case msg.report.Frame != nil:
		m, cmd = m.arrived(*msg.report.Frame)
	}
	m.subs.more = msg.reports
	m, listening := m.listenOn()
	return m, tea.Batch(cmd, listening)
}

// listenOn goes on listening to the watch once all that was said is on the disk: thousands of frames that lie there at
// once wait in their folder, and what a person or a script says waits for one of them at most.
func (m Model) listenOn() (Model, tea.Cmd) {
	reports := m.subs.more
	if reports == nil || m.writing || len(m.waiting) > 0 {
		return m, nil
	}
	m.subs.more = nil
	return m, listen(reports, m.config.Kit.Watch.Folders[0])
}

// troubled notes a folder that can't be looked at, or can again.
func (m Model) troubled(t watch.Trouble) Model {
	m.subs.blind, m.subs.trouble = !t.Over, t.Text
	m.notice = t.Text
	if t.Over {
		m.subs.trouble = ""
	}
	return m
}

// arrived takes in a frame. One of the kit's subs that began while the derotator tracked says that subs are being
// taken, if nobody has said so, and nobody has just taken that back.
func (m Model) arrived(f arrival.Frame) (Model, tea.Cmd) {
	next, body := m.subs.survey.Next(f, m.log, m.tonight.Course)
	m.subs.survey = next
	var cmds []tea.Cmd
	if start, begun := m.beganBy(body); begun {
		var cmd tea.Cmd
		m, cmd = m.utter(utterance{action: checklist.StartSubs{}, at: start})
		cmds = append(cmds, cmd)
	}
	m, cmd := m.say(checklist.SubArrived{Body: body})
	return m, tea.Batch(append(cmds, cmd)...)
}

// beganBy tells whether a frame shows that subs are being taken though nobody has said so, and since when.
func (m Model) beganBy(body checklist.SubArrivedBody) (start time.Time, begun bool) {
	run, open := m.log.OpenRun()
	if body.Already || body.OursNs == nil || m.log.Subs != nil || !open || m.log.Redoable != nil || subs.Kind(body.Kind) != subs.Light {
		return start, false
	}
	ledger := arrival.Keep([]arrival.Frame{arrival.FrameOf(checklist.Arrived{SubArrivedBody: body})},
		arrival.Situation{Kit: m.config.Kit, Night: m.log, Current: m.config.Kit.Targets[0].Name, Now: m.now})
	entry := ledger.Entries[0]
	if !ledger.Sub(entry) || entry.Start.Before(run.Start) || entry.Start.Before(lastStop(run)) || entry.Start.After(m.now) {
		return start, false
	}
	return entry.Start, true
}

// lastStop is when subs were last said to have stopped in a run.
func lastStop(run checklist.Run) (at time.Time) {
	if n := len(run.Subs); n > 0 {
		at = run.Subs[n-1].End
	}
	return at
}

// looksAgain is how often the frames are held against the clock: for the silence of a sequence that stopped.
const looksAgain = 10 * time.Second

// weighs tells whether there is anything to hold against the clock: frames that are watched for, or that another
// window's watch has brought.
func (m Model) weighs() bool {
	return m.tonight != nil && (m.subs.stop != nil || len(m.log.Arrived) > 0)
}

// weighSubs looks now and then whether anything about the frames is odd, and tells what is new.
func (m Model) weighSubs() Model {
	if !m.weighs() || m.now.Sub(m.subs.weighed).Abs() < looksAgain {
		return m
	}
	m.subs.weighed = m.now
	m.subs.facts = m.run.SubsAt(m.subs.free, m.subs.blind)
	told, fresh := m.subs.told.Fresh(m.subs.facts.Notices)
	m.subs.told = told
	for _, n := range fresh {
		if !n.Old {
			m.notice = n.Text
		}
	}
	return m
}
