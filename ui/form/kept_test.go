package form_test

import (
	"errors"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/ui/form"
)

func TestWhatIsTypedIsKeptAtOnce(t *testing.T) {
	p := open(t, nil).press("Flat", "tab", "-31.95, 141.5 ")
	require.NotEmpty(t, p.kept)
	assert.Equal(t, map[string]string{"site.name": "Flat", "site.place": "-31.95, 141.5 "}, p.kept[len(p.kept)-1])
	assert.True(t, p.model.Kept())
	n := len(p.kept)
	p.press("tab", "up", "left")
	assert.Len(t, p.kept, n, "nothing new")
}

// fillWith hands over what was typed another time.
func (p *person) fillWith(typed map[string]string) {
	var cmd tea.Cmd
	before := form.Config{Typed: func() (map[string]string, error) { return typed, nil }}
	p.model, cmd, _ = p.model.Update(before.Before())
	p.carryOut(cmd)
}

func TestWhatWasTypedBeforeComesBack(t *testing.T) {
	before := open(t, nil).fill(example()[:6])
	p := open(t, nil)
	p.fillWith(before.kept[len(before.kept)-1])
	assert.Empty(t, p.kept, "it is there already")
	p.sees("Saltbush Flat", "31°57'S 141°30'E, 210 m", "480", "f/6", "Give 16 to 50000 pixels", "Width of the chip")
	p.press("6248")
	assert.Equal(t, "6248", p.kept[len(p.kept)-1]["camera.width_px"], "goes on where it was left")

	quick := open(t, nil).press("x")
	quick.fillWith(map[string]string{"site.name": "Flat", "optics.aperture_mm": "80", "no.such": "1"})
	assert.Equal(t, map[string]string{"site.name": "x", "optics.aperture_mm": "80"}, quick.kept[len(quick.kept)-1])
	quick.sees("x_", "80")
	quick.press("y")
	assert.Equal(t, map[string]string{"site.name": "xy", "optics.aperture_mm": "80"}, quick.kept[len(quick.kept)-1])
}

// One state is written at a time, the last one last, whatever is typed meanwhile.
func TestWhatIsTypedMeanwhileIsKeptAfterwards(t *testing.T) {
	var written []map[string]string
	m := open(t, func(c *form.Config) {
		c.Keep = func(typed map[string]string) error { written = append(written, typed); return nil }
	}).model
	var cmds []tea.Cmd
	for _, r := range "Flat" {
		var cmd tea.Cmd
		if m, cmd, _ = m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}); cmd != nil {
			cmds = append(cmds, cmd)
		}
	}
	require.Len(t, cmds, 1)
	assert.False(t, m.Kept())
	m, again, _ := m.Update(cmds[0]())
	require.NotNil(t, again)
	assert.False(t, m.Kept())
	m, again, _ = m.Update(again())
	assert.Nil(t, again)
	assert.True(t, m.Kept())
	assert.Equal(t, []map[string]string{{"site.name": "F"}, {"site.name": "Flat"}}, written)
}

// What is typed before the disk has answered takes the place of nothing there.
func TestNothingIsKeptBeforeTheDiskWasRead(t *testing.T) {
	p := &person{t: t}
	p.model = form.New(form.Config{Now: func() time.Time { return time.Date(2026, 12, 5, 9, 0, 0, 0, time.UTC) }, Keep: func(typed map[string]string) error { p.kept = append(p.kept, typed); return nil }})
	p.press("x")
	assert.Empty(t, p.kept)
	assert.True(t, p.model.Kept())
	p.fillWith(map[string]string{"optics.aperture_mm": "80"})
	assert.Equal(t, []map[string]string{{"site.name": "x", "optics.aperture_mm": "80"}}, p.kept)
}

func TestThatNothingCanBeKeptIsSaid(t *testing.T) {
	p := open(t, nil)
	p.trouble = errors.New("what is typed can't be kept: no room")
	p.press("F").sees("what is typed can't be kept: no room")
	p.trouble = nil
	p.press("l")
	assert.Equal(t, map[string]string{"site.name": "Fl"}, p.kept[len(p.kept)-1], "tried again at the next key")
}
