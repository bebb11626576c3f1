package paint

import tea "github.com/charmbracelet/bubbletea"

// Model is a model that paints itself after each message. The library is given nothing to show.
type Model struct {
	Inner         tea.Model
	screen        *Screen
	width, height int
}

// New returns a model that paints on a screen.
func New(inner tea.Model, screen *Screen) Model { return Model{Inner: inner, screen: screen} }

// Init is the inner model's.
func (m Model) Init() tea.Cmd { return m.Inner.Init() }

// Update has the inner model handle a message, and paints what it shows then.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if size, resized := msg.(tea.WindowSizeMsg); resized {
		m.width, m.height = size.Width, size.Height
	}
	inner, cmd := m.Inner.Update(msg)
	m.Inner = inner
	if m.width > 0 && m.height > 0 {
		m.screen.Paint(inner.View(), m.width, m.height)
	}
	return m, cmd
}

// View is nothing: the same at all times, so that the library has nothing to do.
func (m Model) View() string { return "" }
