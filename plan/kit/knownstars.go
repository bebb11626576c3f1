package kit

import (
	"errors"
	"fmt"
	"strings"

	"duskhand/sky/catalog"
)

// KnownStar is a star that the mount's computer knows: its name there, and the catalogue's ID.
type KnownStar struct{ Name, ID string }

// KnownNames returns the names of the stars that the mount knows by their ID in the catalogue; none if the kit
// does not say.
func (s Stars) KnownNames() map[string]string {
	names := make(map[string]string, len(s.Known))
	for _, known := range s.Known {
		if _, twice := names[known.ID]; !twice {
			names[known.ID] = known.Name
		}
	}
	return names
}

// checkKnown looks the names up.
func (r *reader) checkKnown() {
	const key = "stars.known"
	if !r.sound(key) {
		return
	}
	for _, name := range r.draft.names {
		star, problem := knownStar(name)
		if problem != "" {
			r.fault(key, problem)
			continue
		}
		r.draft.kit.Stars.Known = append(r.draft.kit.Stars.Known, star)
	}
}

// WithKnown returns the kit with the stars of a file of names too, one a line; path is for messages. Empty
// lines and what follows # are passed over.
//
// Error: Faults, all of them.
func (k Kit) WithKnown(data []byte, path string) (Kit, error) {
	var faults Faults
	k.Stars.Known = append([]KnownStar{}, k.Stars.Known...)
	for i, line := range strings.Split(strings.TrimPrefix(string(data), "\ufeff"), "\n") {
		name, _, _ := strings.Cut(line, "#")
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		star, problem := knownStar(name)
		if problem != "" {
			faults = append(faults, Fault{File: path, Line: i + 1, Key: "stars.known_file", Problem: problem})
			continue
		}
		k.Stars.Known = append(k.Stars.Known, star)
	}
	if len(faults) > 0 {
		return k, faults
	}
	return k, nil
}

func knownStar(name string) (star KnownStar, problem string) {
	object, err := catalog.Find(name)
	var stranger *catalog.UnknownNameError
	switch {
	case errors.As(err, &stranger) && len(stranger.Near) > 0:
		return star, fmt.Sprintf("names %q, which is no star of the catalogue; did you mean %s?", name, either(stranger.Near))
	case err != nil:
		return star, fmt.Sprintf("names %q, which is no star of the catalogue; give another of its names, or leave it out", name)
	case object.Kind != catalog.Star:
		return star, fmt.Sprintf("names %q, which is no star; leave it out", name)
	}
	return KnownStar{Name: strings.TrimSpace(name), ID: object.ID}, ""
}
