package theme

import "github.com/charmbracelet/lipgloss"

// The steps of red, each given for the three kinds of colour terminal, so that nothing is mixed by rounding. Contrast
// on black, by WCAG 2.2: 2.5, 2.6, 3.0, 3.9, 4.6, 5.25 : 1. What must be read has 3 : 1 or more, what one needs at two
// metres 4.5 : 1, and the fullest red is the call's alone. The colour cube of 256-colour terminals has five pure reds
// (16 + 36·r, r = 1 to 5); their contrasts are 1.4, 2.0, 2.8, 3.9 and 5.25, so that the third is just too dark for words
// and the fourth and the fifth serve for two steps each. With 16 colours there is only colour 1: their colour 9, bright
// red, is salmon in many terminals (FF5555), so the steps collapse and bold and underline tell the roles apart.
const (
	dimTrue, dim256   = "#a20000", "124"
	lowTrue, low256   = "#a60000", "124"
	midTrue, mid256   = "#b80000", "160"
	highTrue, high256 = "#d80000", "160"
	needTrue, need256 = "#ee0000", "196"
	fullTrue, full256 = "#ff0000", "196"
	red16             = "1"
)

// night returns the style of r on black. No role is reversed or filled: a box of light spoils the eye
// for half an hour. SGR 2 (faint) is not used either: the Linux console draws it grey.
func night(base lipgloss.Style, r Role) lipgloss.Style {
	// Black is said, not left to the terminal, or a grey ground would glow through. 16 is black in the
	// cube, which terminals do not let themes change as they do colour 0.
	s := base.Background(lipgloss.CompleteColor{TrueColor: "#000000", ANSI256: "16", ANSI: "0"})
	red := func(trueColor, ansi256 string) lipgloss.Style {
		return s.Foreground(lipgloss.CompleteColor{TrueColor: trueColor, ANSI256: ansi256, ANSI: red16})
	}
	switch r {
	case Ground, Faint:
		return red(dimTrue, dim256)
	case Line:
		return red(lowTrue, low256)
	case Key:
		return red(midTrue, mid256).Bold(true)
	case Mark:
		return red(highTrue, high256)
	case Chosen:
		return red(highTrue, high256).Bold(true)
	case Need:
		return red(needTrue, need256)
	case Call:
		return red(fullTrue, full256).Bold(true)
	case Caution:
		return red(needTrue, need256).Underline(true)
	case Answer:
		return red(needTrue, need256).Bold(true)
	default:
		return red(midTrue, mid256)
	}
}

// back returns the style of a role at night while a call stands: all but the call itself is no brighter than words
// (3 : 1), and keeps its shape.
func back(base lipgloss.Style, r Role) lipgloss.Style {
	s := night(base, r)
	switch r {
	case Ground, Faint, Line, Text, Key, Call:
		return s
	}
	return s.Foreground(lipgloss.CompleteColor{TrueColor: midTrue, ANSI256: mid256, ANSI: red16})
}

// day returns the style of r on the terminal's own ground, light or dark, which we neither ask for nor
// change: the colours are of middle lightness and can be read on both.
func day(base lipgloss.Style, r Role) lipgloss.Style {
	ink := func(trueColor, ansi256, ansi string) lipgloss.Style {
		return base.Foreground(lipgloss.CompleteColor{TrueColor: trueColor, ANSI256: ansi256, ANSI: ansi})
	}
	switch r {
	case Faint:
		return ink("#808080", "244", "8")
	case Line:
		return ink("#5f87af", "67", "4")
	case Key, Answer:
		return base.Bold(true)
	case Mark:
		return ink("#008787", "30", "6").Bold(true)
	case Chosen:
		return base.Reverse(true)
	case Caution:
		return ink("#af5f00", "130", "3").Underline(true)
	case Call:
		return ink("#d70000", "160", "1").Bold(true)
	default:
		return base
	}
}

// mono returns the style of r without colour.
func mono(base lipgloss.Style, r Role) lipgloss.Style {
	switch r {
	case Key, Mark, Answer:
		return base.Bold(true)
	case Chosen:
		return base.Reverse(true)
	case Caution:
		return base.Underline(true)
	case Call:
		return base.Bold(true).Underline(true)
	default:
		return base
	}
}

// contrast returns the style of r in white and yellow on black: every role has at least 10 : 1 on its ground
// (WCAG 2.2 asks 7 : 1 at its strictest level, success criterion 1.4.6). Its black is said, as at night.
func contrast(base lipgloss.Style, r Role) lipgloss.Style {
	s := base.Background(lipgloss.CompleteColor{TrueColor: "#000000", ANSI256: "16", ANSI: "0"})
	quiet := s.Foreground(lipgloss.CompleteColor{TrueColor: "#c0c0c0", ANSI256: "250", ANSI: "7"})
	white := s.Foreground(lipgloss.CompleteColor{TrueColor: "#ffffff", ANSI256: "231", ANSI: "15"})
	yellow := s.Foreground(lipgloss.CompleteColor{TrueColor: "#ffff00", ANSI256: "226", ANSI: "11"})
	switch r {
	case Ground, Faint, Line:
		return quiet
	case Key:
		return white.Bold(true)
	case Mark, Answer:
		return yellow.Bold(true)
	case Chosen:
		return white.Reverse(true)
	case Caution:
		return yellow.Underline(true)
	case Call:
		return yellow.Bold(true).Reverse(true)
	default:
		return white
	}
}

// style returns the style of role r in palette p.
func style(base lipgloss.Style, p Palette, r Role) lipgloss.Style {
	switch p {
	case Day:
		return day(base, r)
	case Mono:
		return mono(base, r)
	case Contrast:
		return contrast(base, r)
	default:
		return night(base, r)
	}
}

// showsOnBlank returns whether a blank in role r can be told from the ground.
func showsOnBlank(s lipgloss.Style) bool { return s.GetReverse() || s.GetUnderline() }
