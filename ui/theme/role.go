// Package theme says how a screen looks: which roles a cell can play, which palettes give the roles
// their light, and how a surface of cells becomes one string for the terminal. It is the only place
// where a style or a colour is made. A role never carries a meaning alone: a word or a shape says the
// same, so that the palette without colour tells as much as the others.
package theme

// Role is what a cell is there for. A higher role is brighter or more urgent, and where two parts of a
// drawing share a cell the higher one shows.
type Role uint8

// The roles, from the quietest up.
const (
	Ground  Role = iota // nothing: the ground itself
	Faint               // what may be overlooked: units, ticks, past things
	Line                // the lines of drawings
	Text                // ordinary words
	Key                 // a key to press, a heading
	Mark                // here, now: the marker in a drawing
	Chosen              // the row or thing that is selected
	Need                // what one needs at two metres: what the answer counts to, what to do
	Caution             // careful: not urgent, but not to be missed
	Answer              // what the screen is for
	Call                // act now: the one brightest thing
	roleCount
)

// Roles returns every role, Ground first.
func Roles() []Role {
	roles := make([]Role, roleCount)
	for i := range roles {
		roles[i] = Role(i)
	}
	return roles
}
