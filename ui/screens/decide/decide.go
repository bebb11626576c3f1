package decide

import (
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/checklist"
	"duskhand/plan/choose"
	"duskhand/ui/facts"
	"duskhand/ui/keys"
	"duskhand/ui/screens"
)

// Model is what the screen keeps.
type Model struct {
	free func(folder string) (uint64, error) // what a folder's disk has left; nil if nobody can tell

	page   page
	picked facts.Picked
	chosen string // a target by name; "" for the night's own
	place  int    // of it in the ranking

	ranking asked[facts.RankingQuestion, facts.Ranking]
	own     asked[facts.RankingQuestion, facts.Ranking] // of the kit's targets alone, which is there sooner
	year    asked[yearQuestion, choose.Year]
	disk    asked[diskQuestion, facts.Disk]

	verdict  facts.Verdict
	subs     facts.SubLengths
	supplies facts.Supplies
}

// New returns the room; free tells what a folder's disk has left, nil if nobody can.
func New(free func(folder string) (uint64, error)) Model { return Model{free: free} }

// looksFor is what the list is limited to: the answer to a question.
type looksFor struct{ constellation, namePart string }

// Update handles the room's keys, asks for what it shows and nobody has computed yet, and takes the answers.
func (r Model) Update(s screens.Status, msg tea.Msg) (screens.Room, screens.Intent, tea.Cmd) {
	switch msg := msg.(type) {
	case screens.Entered, screens.Changed:
		return r.derived(s), nil, nil
	case screens.Settled:
		next, cmd := r.ask(s)
		return next, nil, cmd
	case screens.Pressed:
		next, want := r.pressed(s, msg.Action)
		return next, want, nil
	case looksFor:
		r.picked.Constellation, r.picked.NamePart = msg.constellation, msg.namePart
		return r, nil, nil
	}
	next, cmd := r.computed(s, msg)
	return next, nil, cmd
}

func (r Model) pressed(s screens.Status, action keys.Action) (Model, screens.Intent) {
	switch action {
	case keys.Up:
		return r.moved(s, -1), nil
	case keys.Down:
		return r.moved(s, +1), nil
	case keys.PageOn:
		r.page = view{r, screens.Shown{Status: s}}.turnedPage(+1)
	case keys.PageBack:
		r.page = view{r, screens.Shown{Status: s}}.turnedPage(-1)
	case keys.TypeOn:
		r.picked.Type = nextType(r.picked.Type, +1)
	case keys.TypeBack:
		r.picked.Type = nextType(r.picked.Type, -1)
	case keys.OneRun:
		r.picked.OneRun = !r.picked.OneRun
	case keys.Fits:
		r.picked.Fits = !r.picked.Fits
	case keys.Find:
		return r, screens.Ask{Prompt: askFind()}
	case keys.Temperature:
		return r, screens.Ask{Prompt: screens.AskTemperature()}
	case keys.Humidity:
		return r, screens.Ask{Prompt: askHumidity()}
	case keys.Target:
		return r, r.take(s)
	}
	return r, nil
}

// derived finds the chosen target in the ranking, and what follows from it: that costs a millisecond or two, while
// the screen shows.
func (r Model) derived(s screens.Status) Model {
	if s.Tonight == nil || s.Screen != keys.DecideScreen {
		return r
	}
	r.supplies = s.Run.SuppliesAt(r.disk.answer)
	name := r.chosen
	if name == "" {
		name = s.Tonight.Target.Name
	}
	r.place = max(0, r.listed().answer.Place(name))
	if choice, ok := (view{r, screens.Shown{Status: s}}).choice(); ok {
		r.verdict = s.Run.VerdictOf(choice)
		r.subs = s.Run.SubLengthsOf(choice.Target)
	}
	return r
}

// moved goes up or down the ranking.
func (r Model) moved(s screens.Status, by int) Model {
	choices := r.listed().answer.Choices
	if !(view{r, screens.Shown{Status: s}}).isRanked() || len(choices) == 0 {
		return r
	}
	r.chosen = choices[max(0, min(r.place+by, len(choices)-1))].Target.Name
	return r.derived(s)
}

// take makes the chosen target the night's.
func (r Model) take(s screens.Status) screens.Intent {
	choice, ok := view{r, screens.Shown{Status: s}}.choice()
	if !ok {
		return nil
	}
	if choice.Target.Name == s.Tonight.Target.Name {
		return screens.Tell{Words: choice.Target.Name + " is tonight's target already"}
	}
	return screens.Say{Action: checklist.ChooseTarget{Target: checklist.Target{Name: choice.Target.Name,
		Star: choice.Target.Star}}}
}

// Keys: a target may be chosen, and the page of supplies asks for the air's temperature and humidity.
func (r Model) Keys(s screens.Status, state keys.State) keys.State {
	m := view{r, screens.Shown{Status: s}}
	_, state.Chosen = m.choice()
	state.Air = m.pageShown() == suppliesPage
	return state
}
