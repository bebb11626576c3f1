package theme

// Ink gives colours to the roles of a page, as CSS writes them: for a screen in the dark or for paper.
type Ink struct {
	Name  string
	Paper string
	roles [roleCount]string
}

// Of returns the colour of a role.
func (i Ink) Of(r Role) string { return i.roles[r] }

// DarkInk is red on black, with no green or blue in it.
func DarkInk() Ink {
	return Ink{Name: "dark", Paper: "#000000", roles: [roleCount]string{
		Ground: "#000000", Faint: "#780000", Line: "#900000", Text: "#c00000", Key: "#c00000", Mark: "#e00000",
		Chosen: "#d80000", Need: "#e00000", Caution: "#e80000", Call: "#ff0000", Answer: "#ff0000",
	}}
}

// PrintInk is black and greys on white.
func PrintInk() Ink {
	return Ink{Name: "print", Paper: "#ffffff", roles: [roleCount]string{
		Ground: "#ffffff", Faint: "#777777", Line: "#999999", Text: "#222222", Key: "#222222", Mark: "#000000",
		Chosen: "#000000", Need: "#000000", Caution: "#000000", Call: "#000000", Answer: "#000000",
	}}
}
