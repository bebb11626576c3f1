package keys

import (
	"cmp"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"duskhand/plan/kit"
)

// Bound is a row with the keys that the kit gives it, in a state.
type Bound struct {
	Row
	Shown    string // the key as it is shown
	Words    string // its help on the screen that shows
	Possible bool
	InFooter bool // if it is possible
	binding  key.Binding
}

// Table is the table of keys with those of a kit, in a state. The zero Table has no key.
type Table struct{ rows []Bound }

// New returns the table with the keys that the kit gives, before anything is possible. Ctrl-C leaves, whatever the kit
// says.
func New(chosen kit.Keys) Table {
	var t Table
	for _, r := range Rows() {
		if names := chosen[string(r.Action)]; len(names) > 0 && !r.Fixed {
			r.Keys = names
		}
		b := Bound{Row: r, Shown: r.Keys[0], Words: r.Help, binding: key.NewBinding(key.WithKeys(typed(r)...))}
		if r.Fixed {
			b.Shown = r.Keys[0] + " to " + r.Keys[len(r.Keys)-1]
		}
		t.rows = append(t.rows, b)
	}
	return t
}

// typed returns the names that the keys of a row have in messages of the terminal.
func typed(r Row) (names []string) {
	for _, name := range r.Keys {
		if name == "space" {
			name = " "
		}
		names = append(names, name)
	}
	if r.Action == Quit {
		names = append(names, "ctrl+c")
	}
	return names
}

// In returns the table in a state.
func (t Table) In(s State) Table {
	rows := slices.Clone(t.rows)
	for i, b := range rows {
		rows[i].Words = b.helpIn(s.Screen)
		rows[i].InFooter = b.Place > 0 && (b.Named == nil || b.Named(s))
		rows[i].Possible = b.isOn(s.Screen) && b.When(s) || b.Sheet && s.Helping
	}
	return Table{rows}
}

// Action returns what a key does now; ok is false if it does nothing.
func (t Table) Action(msg tea.KeyMsg) (a Action, ok bool) {
	for _, b := range t.rows {
		if b.Possible && key.Matches(msg, b.binding) {
			return b.Action, true
		}
	}
	return "", false
}

// Meant returns the rows that have a key, whether or not anything is possible now.
func (t Table) Meant(msg tea.KeyMsg) (meant []Bound) {
	for _, b := range t.rows {
		if key.Matches(msg, b.binding) {
			meant = append(meant, b)
		}
	}
	return meant
}

// Of returns the row of an action.
func (t Table) Of(a Action) Bound {
	if i := slices.IndexFunc(t.rows, func(b Bound) bool { return b.Action == a }); i >= 0 {
		return t.rows[i]
	}
	return Bound{}
}

// Shown returns the key of an action as it is shown.
func (t Table) Shown(a Action) string { return t.Of(a).Shown }

// All returns every row.
func (t Table) All() []Bound { return slices.Clone(t.rows) }

// Footer returns the rows that the footer names now, from the left.
func (t Table) Footer() (named []Bound) {
	for _, b := range t.rows {
		if b.Possible && b.InFooter {
			named = append(named, b)
		}
	}
	slices.SortStableFunc(named, func(a, b Bound) int { return cmp.Compare(a.Place, b.Place) })
	return named
}

// Press is the message of a row's first key.
func (b Bound) Press() tea.KeyMsg {
	switch name := b.Keys[0]; name {
	case "space":
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune(" ")}
	case "enter":
		return tea.KeyMsg{Type: tea.KeyEnter}
	case "tab":
		return tea.KeyMsg{Type: tea.KeyTab}
	case "esc":
		return tea.KeyMsg{Type: tea.KeyEsc}
	case "left":
		return tea.KeyMsg{Type: tea.KeyLeft}
	case "right":
		return tea.KeyMsg{Type: tea.KeyRight}
	default:
		return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
	}
}
