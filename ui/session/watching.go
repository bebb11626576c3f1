package session

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
	"duskhand/ui/say"
)

// Watching the folders that the capture computer writes to.

// watcher is what the watch keeps.
type watcher struct {
	told     arrival.Told
	survey   survey.Survey
	stop     context.CancelFunc  // nil while nothing is watched
	pointing *place.Pointing     // where the watch looks for what a light shows; nil while nothing is watched
	blind    bool                // a folder can't be
	weighed  time.Time           // when the frames were last held against the clock
	more     <-chan watch.Report // what it has to say next, while something is being written
	free     *uint64             // bytes on the disk of the first folder; nil if nobody knows
}

// workers is how many frames are measured at a time, each on two cores: a sub takes far longer than either.
const workers, goroutines = 1, 2

// startWatching watches the kit's folders for the program that writes the night.
func (m Session) startWatching() (Session, tea.Cmd) {
	folders := m.config.Kit.Watch.Folders
	if len(folders) == 0 || !m.config.onDisk() || m.Status.Follows != "" || m.watch.stop != nil || m.Status.Tonight == nil {
		return m, nil
	}
	ctx, stop := context.WithCancel(context.Background())
	m.watch.stop, m.watch.survey, m.watch.pointing = stop, survey.New(m.config.Kit), &place.Pointing{}
	m.sayPointing()
	settings := watch.Settings{
		Folders: folders, Read: place.Reading(survey.Reading(goroutines, m.config.Kit.MostPixels(), subs.Mosaic(m.config.Kit.Camera.Colour)),
			m.config.Kit, m.watch.pointing),
		Now: m.config.Clock.Now, After: time.After,
		Since: m.Status.Tonight.Night.Span.From, Poll: m.config.Kit.Watch.Poll, Workers: workers,
	}
	settings.Known = survey.Known(m.Status.Log)
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
func (m Session) sayPointing() {
	if m.watch.pointing != nil {
		m.watch.pointing.Set(m.Status.Run.Sought(m.Status.Stars))
	}
}

// stopWatching ends the watch; what it still has to say is not heard.
func (m Session) stopWatching() Session {
	if m.watch.stop != nil {
		m.watch.stop()
	}
	m.watch, m.Status.Subs, m.Status.Unseen = watcher{}, facts.Subs{}, ""
	return m
}

// listen waits for the next thing that the watch has to say, and looks how much room the disk has.
func listen(reports <-chan watch.Report, folder string) tea.Cmd {
	return func() tea.Msg {
		report, ok := <-reports
		if !ok {
			return nil
		}
		msg := ReportedMsg{Report: report, Reports: reports}
		if free, err := watch.FreeBytes(folder); err == nil {
			msg.Free = &free
		}
		return msg
	}
}

func (m Session) watchStarted(msg watchStartedMsg) (Session, tea.Cmd) {
	if msg.err != nil {
		m.Status.Unseen, m.Notice = msg.err.Error(), "the subs can't be watched: "+msg.err.Error()
		return m, nil
	}
	return m, listen(msg.reports, m.config.Kit.Watch.Folders[0])
}

func (m Session) reported(msg ReportedMsg) (Session, tea.Cmd) {
	if m.watch.stop == nil { // of a watch that has ended
		return m, nil
	}
	m.watch.free = msg.Free
	var cmd tea.Cmd
	switch {
	case msg.Report.Trouble != nil:
		m = m.troubled(*msg.Report.Trouble)
	case msg.Report.Frame != nil:
		m, cmd = m.arrived(*msg.Report.Frame)
	}
	m.watch.more = msg.Reports
	m, listening := m.listenOn()
	return m, tea.Batch(cmd, listening)
}

// listenOn goes on listening to the watch once all that was said is on the disk: thousands of frames that lie there at
// once wait in their folder, and what a person or a script says waits for one of them at most.
func (m Session) listenOn() (Session, tea.Cmd) {
	reports := m.watch.more
	if reports == nil || m.writing || len(m.waiting) > 0 {
		return m, nil
	}
	m.watch.more = nil
	return m, listen(reports, m.config.Kit.Watch.Folders[0])
}

// troubled notes a folder that can't be looked at, or can again.
func (m Session) troubled(t watch.Trouble) Session {
	m.watch.blind, m.Status.Unseen = !t.Over, t.Text
	m.Notice = t.Text
	if t.Over {
		m.Status.Unseen = ""
	}
	return m
}

// arrived takes in a frame. One of the kit's subs that began while the derotator tracked says that subs are being
// taken, if nobody has said so, and nobody has just taken that back.
func (m Session) arrived(f arrival.Frame) (Session, tea.Cmd) {
	next, body := m.watch.survey.Next(f, m.Status.Log, m.Status.Tonight.Course)
	m.watch.survey = next
	var cmds []tea.Cmd
	if start, begun := m.beganBy(body); begun {
		var cmd tea.Cmd
		m, cmd = m.utter(utterance{action: checklist.StartSubs{}, at: start})
		cmds = append(cmds, cmd)
	}
	m, cmd := m.Say(checklist.SubArrived{Body: body})
	return m, tea.Batch(append(cmds, cmd)...)
}

// beganBy tells whether a frame shows that subs are being taken though nobody has said so, and since when.
func (m Session) beganBy(body checklist.SubArrivedBody) (start time.Time, begun bool) {
	run, open := m.Status.Log.OpenRun()
	if body.Already || body.OursNs == nil || m.Status.Log.Subs != nil || !open || m.Status.Log.Redoable != nil || subs.Kind(body.Kind) != subs.Light {
		return start, false
	}
	ledger := arrival.Keep([]arrival.Frame{arrival.FrameOf(checklist.Arrived{SubArrivedBody: body})},
		arrival.Situation{Kit: m.config.Kit, Night: m.Status.Log, Current: m.config.Kit.Targets[0].Name,
			Now: m.Status.Now})
	entry := ledger.Entries[0]
	if !ledger.Sub(entry) || entry.Start.Before(run.Start) || entry.Start.Before(lastStop(run)) || entry.Start.After(m.Status.Now) {
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
func (m Session) weighs() bool {
	return m.Status.Tonight != nil && (m.watch.stop != nil || len(m.Status.Log.Arrived) > 0)
}

// weighSubs looks now and then whether anything about the frames is odd, and tells what is new.
func (m Session) weighSubs() Session {
	if !m.weighs() || m.Status.Now.Sub(m.watch.weighed).Abs() < looksAgain {
		return m
	}
	m.watch.weighed = m.Status.Now
	m.Status.Subs = m.Status.Run.SubsAt(m.watch.free, m.watch.blind)
	told, fresh := m.watch.told.Fresh(m.Status.Subs.Notices)
	m.watch.told = told
	for _, n := range fresh {
		if !n.Old && n.Kind != arrival.Silent { // that calls, on every screen and until it is over
			m.Notice = say.Notice(n)
		}
	}
	return m
}
