package keys

import (
	"fmt"
	"slices"
	"strings"

	"duskhand/plan/kit"
)

// KitRows returns the rows of the kit's section [keys], for its reference and its template.
func KitRows() (rows []kit.KeyRow) {
	for _, r := range Rows() {
		if !r.Fixed {
			rows = append(rows, kit.KeyRow{Name: string(r.Action), Help: r.sentence(), Default: r.Keys})
		}
	}
	return rows
}

// sentence is the help with the screens that the key belongs to.
func (r Row) sentence() string {
	words := r.kitHelp()
	words = strings.ToUpper(words[:1]) + words[1:]
	switch n := len(r.On); {
	case n == 0:
	case n <= 2:
		var names []string
		for _, s := range r.On {
			names = append(names, s.String())
		}
		words += ", on the screen " + strings.Join(names, " and ")
	case n == int(ScreenCount)-1:
		for s := range ScreenCount {
			if !r.isOn(s) {
				words += ", on every screen but " + s.String()
			}
		}
	}
	return words + "."
}

// Check returns what is wrong with a kit's section [keys]: actions that there are not, keys that are wanted for
// something else, and keys that two actions of one screen have.
func Check(given kit.KeyTable) (faults []kit.Fault) {
	c := checker{given: given, faulty: map[Action]bool{}}
	known := kitNames()
	for _, name := range given.Names() {
		if !slices.Contains(known, name) {
			c.fault(Action(name), unknown(name, known))
		}
	}
	rows := Rows()
	for _, r := range rows {
		for _, name := range given.Keys[string(r.Action)] {
			if problem := r.problem(name); problem != "" && !c.faulty[r.Action] {
				c.fault(r.Action, problem)
			}
		}
	}
	for i, b := range rows {
		for _, a := range rows[:i] {
			c.clash(a, b)
		}
	}
	return c.faults
}

// checker gathers the faults of a section.
type checker struct {
	given  kit.KeyTable
	faulty map[Action]bool
	faults []kit.Fault
}

func (c *checker) fault(a Action, problem string) {
	c.faulty[a] = true
	c.faults = append(c.faults, c.given.Fault(string(a), problem))
}

func kitNames() (names []string) {
	for _, r := range KitRows() {
		names = append(names, r.Name)
	}
	return names
}

func unknown(name string, known []string) string {
	if near := kit.Nearest(name, known); near != "" {
		return "is unknown; did you mean keys." + near + "?"
	}
	return "is unknown; [keys] takes " + strings.Join(known, ", ")
}

// problem says why the action of the row can't have a key, "" if it can.
func (r Row) problem(name string) string {
	if use := taken(name); use != "" && !slices.Contains(r.Keys, name) {
		return fmt.Sprintf("= %q is reserved: it %s; give another key", name, use)
	}
	return ""
}

// taken says what a key is wanted for that no other action may have, "" if it is free.
func taken(name string) string {
	switch {
	case name == "ctrl+c":
		return "leaves the program, whatever happens"
	case name == "ctrl+z":
		return "suspends the program"
	case name == "esc":
		return "leaves what is asked"
	case name == "enter":
		return "answers what is asked"
	case len(name) == 1 && name >= "1" && name <= "9":
		return "goes to a screen by its number"
	}
	return ""
}

// clash finds keys that two actions of one screen have.
func (c *checker) clash(a, b Row) {
	if a.Fixed || b.Fixed || !a.meets(b) || c.faulty[a.Action] || c.faulty[b.Action] ||
		c.given.Faulty(string(a.Action)) || c.given.Faulty(string(b.Action)) {
		return
	}
	for _, name := range c.keysOf(a) {
		if slices.Contains(c.keysOf(b), name) {
			c.accuse(name, a.Action, b.Action)
		}
	}
}

func (c *checker) keysOf(r Row) []string {
	if names := c.given.Keys[string(r.Action)]; len(names) > 0 {
		return names
	}
	return r.Keys
}

// accuse faults the one of the two that the file gives, the second if it gives both.
func (c *checker) accuse(name string, first, second Action) {
	own, other := second, first
	if !c.gives(own) {
		own, other = other, own
	}
	where := "the default"
	if c.gives(other) {
		where = fmt.Sprintf("line %d", c.given.Line(string(other)))
	}
	c.fault(own, fmt.Sprintf("has the key %q, and so has keys.%s (%s); give one of the two another key",
		name, other, where))
}

func (c *checker) gives(a Action) bool { return len(c.given.Keys[string(a)]) > 0 }
