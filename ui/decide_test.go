package ui_test

import (
	"errors"
	"regexp"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/plan/kit"
	"duskhand/ui"
)

// decidePage opens a page of the Decide screen by its name.
func decidePage(s *session, name string) *session {
	s.press("7")
	towards := map[string]string{"sub length": "left", "supplies": "left"}[name]
	if towards == "" {
		towards = "right"
	}
	for range 6 {
		if shown := regexp.MustCompile("[›>] " + name); shown.MatchString(s.text()) {
			return s
		}
		s.press(towards)
	}
	require.Fail(s.t, "no page "+name, s.text())
	return s
}

// deciding opens the Decide screen.
func deciding(t *testing.T, width, height int, change func(*ui.Config)) *session {
	return start(t, width, height, change).press("7").sees("orth it")
}

// The example's target is worth it: it is up for 5 hours more, its rewinds cost minutes.
func TestDecideAnswersWhatAndWhetherItIsWorthIt(t *testing.T) {
	s := deciding(t, 80, 24, nil)
	s.sees("Worth it: NGC 2070 gives 4 h 42 min of subs", "of 657", "Up 5 h 02 min in the dark, 23:10 to 04:12", "It is tonight's target")
	s.press("down").sees("number 2 of 657", "the best is NGC 2070", "t: take it for tonight").seesNot("Worth it: NGC 2070")
	s.press("up").sees("the best of 657")
	for _, page := range []string{"why", "year", "sub length", "supplies", "targets"} {
		s.press("right").sees("› "+page, "Worth it: NGC 2070 gives 4 h 42 min of subs")
	}
	s.press("left").sees("› supplies")
}

// What is not up is not worth it, and it is said why: M 82, 70° north, never rises at 32° south.
func TestDecideSaysWhatIsNotWorthIt(t *testing.T) {
	s := deciding(t, 100, 24, nil)
	s.press("i").press(typed("M 82")...).sees("Not worth it: ", "never above 25° and clear of the horizon in the dark", `only named "M 82"`)
	s.press("i").press(typed("nothing of that name")...).sees("Nothing to take: no target is named", "Change what is listed")
	s.press("i", "enter").sees("Worth it: NGC 2070", "of 657")
	s.press("i").press(typed("orion")...).sees("only in Orion", "Orion Nebula").seesNot("Dolphin")
	s.press("i").press(typed("fornax")...).sees("only in Fornax", "NGC 1365")
}

func TestDecideListsWhatIsWanted(t *testing.T) {
	s := deciding(t, 100, 24, nil)
	all := s.text()
	s.press(".").sees("only galaxy").seesNot("of 657").press(",").seesNot("only galaxy").sees("of 657")
	assert.Equal(t, all, s.text())
	s.press("d").sees("only in one run").seesNot("of 657").press("d", "f").sees("only fitting the chip").press("f")
	assert.Equal(t, all, s.text())
	s.press(",").sees("only asterism", "kind")
}

// The chosen target is taken with the key that goes on to another target elsewhere; not while subs are taken.
func TestDecideTakesTheChosenTarget(t *testing.T) {
	s := deciding(t, 120, 30, nil).press("down")
	name := regexp.MustCompile(`orth it: (.+?) gives`).FindStringSubmatch(s.text())[1]
	s.press("t").sees("subs are being taken; say that they have stopped, then choose another target")
	s.press("s", "t").sees("u undo: target "+name, "It is tonight's target")
	s.press("t").sees(name + " is tonight's target already")
	s.press("1").sees(name).press("7", "u").sees("u undo: subs stopped", "t: take it for tonight")
}

func TestYearOfTheChosenTarget(t *testing.T) {
	s := decidePage(start(t, 80, 24, nil), "year")
	s.sees("NGC 2070: best around", "new Moon", "usable hours without the Moon")
	for _, month := range []string{"Dec", "Jan", "Jun", "Nov"} {
		assert.Regexp(t, `(?m)^ `+month+` .*[▁▂▃▄▅▆▇█]`, s.text())
	}
	assert.Regexp(t, `(?m)^ Jun .*o`, s.text(), "the Moon is up in some nights")
	s.press("down").sees("best around").seesNot("NGC 2070: best around")
	decidePage(start(t, 40, 12, nil), "year").sees("best around", "J  F")
}

// The kit's values that lack are named, and what can be answered without them is.
func TestSubLengthsSayWhatTheKitLacks(t *testing.T) {
	s := decidePage(start(t, 100, 30, nil), "sub length")
	s.sees("60 s of L is long enough: reading adds 2 % of noise", "Subs of NGC 2070 that begin at 23:14").seesNot("The kit does not give")
	k := kit.Example()
	k.Camera.ReadNoiseE, k.Site.SeeingArcsec = 0, 0
	s = decidePage(start(t, 100, 30, func(c *ui.Config) { c.Kit = k }), "sub length")
	s.sees("The kit does not give", "give camera.read_noise_e", "site.seeing_arcsec", "A sub that begins now may last", "?")
}

func TestSuppliesOnTheDecideScreen(t *testing.T) {
	s := decidePage(start(t, 100, 30, nil), "supplies")
	s.sees("keys c and h", "Give watch.folders in the kit", "of the 480 usable", "battery, sunset to sunrise")
	s.press("h").press(typed("wet")...).sees("give one number from 1 to 100").press("esc")
	s.press("h").press(typed("120")...).sees("give one number from 1 to 100").press("esc")
	s.press("c").press(typed("12")...).press("h").press(typed("85%")...)
	// Alduchov & Eskridge 1996 by hand: γ = ln 0.85 + 17.625·12/255.04 = 0.66675, 243.04·γ/(17.625 − γ) = 9.56 °C
	s.sees("The dew point is 9.6 °C, only 2.4 K below the air", "u undo: humidity 85 %")
	s.press("u").sees("keys c and h").seesNot("9.6 °C")
	s.press("right").press("h").seesNot("relative humidity")
}

func TestWhatIsFreeOnTheDisk(t *testing.T) {
	k := kit.Example()
	k.Watch.Folders = []string{"/subs"}
	free := func(bytes uint64, err error) func(*ui.Config) {
		return func(c *ui.Config) {
			c.Kit, c.FreeBytes = k, func(folder string) (uint64, error) {
				assert.Equal(t, "/subs", folder)
				return bytes, err
			}
		}
	}
	decidePage(start(t, 100, 30, free(80e9, nil)), "supplies").sees("of 80.0 GB free")
	decidePage(start(t, 100, 30, free(1e9, nil)), "supplies").sees("and only 1.0 GB are free: the disk is full after 19 of them") // 10⁹ / 52 191 360 = 19.2
	decidePage(start(t, 100, 30, free(0, errors.New("no such folder"))), "supplies").sees("What is free at /subs could not be found: no such folder.")
}

// What is computed aside is dropped when something else has been asked meanwhile.
func TestStaleRankingsAreDropped(t *testing.T) {
	s := start(t, 100, 30, nil)
	first := func(keys ...tea.Msg) tea.Cmd {
		var cmd tea.Cmd
		for _, k := range keys {
			next, c := s.model.Update(k)
			s.model, cmd = next.(ui.Model), c
		}
		return cmd
	}
	key := func(r string) tea.Msg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(r)} }
	all := first(key("7"))
	require.NotNil(t, all)
	s.sees("ranking the targets")
	galaxies := first(key("."))
	s.carryOut(galaxies)
	s.sees("only galaxy").seesNot("of 657")
	listed := s.text()
	s.carryOut(all) // given up, or too late
	assert.Equal(t, listed, s.text())
}

// The ranking counts what is left of the night: it is made anew every five minutes while it shows.
func TestTheRankingFollowsTheNight(t *testing.T) {
	s := deciding(t, 100, 30, nil).sees("23:10 to 04:12")
	s.pass(time.Hour).sees("Up 4 h 02 min", "00:10 to 04:12")
}

// What is left of the night is not worth it shortly before its end, and nothing is when it is over.
func TestDecideAtTheEndOfTheNight(t *testing.T) {
	s := at(t, local(3, 50), nil).press("7").sees("Not worth it: ")
	s.pass(time.Hour).sees("Not worth it").press("right", "right", "right").sees("can't be used any more tonight")
}

// BenchmarkDecide bounds drawing the Decide screen: 3 ms.
func BenchmarkDecide(b *testing.B) {
	s := deciding(&testing.T{}, 120, 40, nil)
	b.ReportAllocs()
	for b.Loop() {
		s.model.View()
	}
}

// BenchmarkDecideMoved bounds a step along its list, the year and the ranking computed aside: 10 ms.
func BenchmarkDecideMoved(b *testing.B) {
	s := deciding(&testing.T{}, 80, 24, nil)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		s.press([]string{"down", "up"}[i%2])
	}
}
