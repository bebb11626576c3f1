package kit

import (
	"slices"
	"strings"

	"duskhand/sky/catalog"
)

// FindTarget returns the kit's target of a name, by any name that the catalogue knows it by, or else the
// catalogue's object.
//
// Error: *catalog.UnknownNameError, with the nearest names.
func (k Kit) FindTarget(name string) (Target, error) {
	same := func(t Target) bool { return strings.EqualFold(t.Name, strings.TrimSpace(name)) }
	if i := slices.IndexFunc(k.Targets, same); i >= 0 {
		return k.Targets[i], nil
	}
	object, err := catalog.Find(name)
	if err != nil {
		return Target{}, err
	}
	if i := slices.IndexFunc(k.Targets, func(t Target) bool { return t.Object.ID == object.ID }); i >= 0 {
		return k.Targets[i], nil
	}
	return Target{Name: object.Name(), Star: object.Star, Object: object}, nil
}

// Called is the target by its number in a catalogue and its name for people: "NGC 2070, Tarantula Nebula"; by what the
// kit calls it where the catalogue does not have it.
func (t Target) Called() string {
	o := t.Object
	switch name := o.Name(); {
	case o.ID == "":
		return t.Name
	case t.Name != o.ID && !strings.EqualFold(t.Name, name):
		return t.Name + ", " + name
	case strings.HasPrefix(name, o.ID): // "Fornax Dwarf Galaxy" has all of it
		return name
	default:
		return o.ID + ", " + name
	}
}
