package form

import (
	"cmp"
	"strings"

	"github.com/charmbracelet/bubbles/textinput"

	"duskhand/plan/kit"
	"duskhand/ui/oneline"
)

// field is one line of the form. Its key is the kit's, but for the place, which answers two or three of the
// kit's keys at once.
type field struct {
	key, group, label string
	question          kit.Question
	input             textinput.Model
}

// Keys of the fields that are more than text.
const (
	placeKey     = kit.PlaceKey
	filtersKey   = kit.FiltersKey
	zoneKey      = "site.zone"
	latitudeKey  = "site.latitude"
	longitudeKey = "site.longitude"
	elevationKey = "site.elevation_m"
)

// newFields returns every question of a new kit.
func newFields() []field {
	asked := kit.AskedOfANewKit()
	fields := make([]field, len(asked))
	for i, a := range asked {
		fields[i] = field{a.Key, a.Group, a.Label, a.Question, oneline.New(longestAnswer)}
	}
	return fields
}

// state is how a field stands.
type state int

const (
	answered state = iota
	missing
	faulty
	left // empty, and may stay so
)

func (m Model) fieldState(i int) state {
	f := m.fields[i]
	switch {
	case m.fault(i) != "":
		return faulty
	case m.text(f.key) != "":
		return answered
	case m.proposal(i) != "":
		return left
	}
	return missing
}

// proposal is what counts for an empty field.
func (m Model) proposal(i int) string {
	f := m.fields[i]
	if f.key == zoneKey {
		return m.zone
	}
	return cmp.Or(m.proposed[f.key], f.question.Default)
}

// fault says what is wrong with a field, by itself or beside another, "" if nothing is.
func (m Model) fault(i int) string {
	f := m.fields[i]
	if f.key == placeKey {
		if m.place.err != nil {
			return m.place.err.Error()
		}
		for _, key := range []string{latitudeKey, longitudeKey, elevationKey} {
			if fault, found := m.sketch.Fault(key); found {
				return m.named(fault.Problem)
			}
		}
		return ""
	}
	if fault, found := m.sketch.Fault(f.key); found {
		return m.named(fault.Problem)
	}
	return ""
}

// named puts the labels of the form in place of the kit's keys.
func (m Model) named(problem string) string {
	for _, f := range m.fields {
		if f.key != placeKey {
			problem = strings.ReplaceAll(problem, f.key, f.label)
		}
	}
	problem = strings.NewReplacer(longitudeKey, "the longitude", latitudeKey, "the latitude").Replace(problem)
	return strings.TrimPrefix(problem, "= ")
}

// open returns how many answers are missing or won't do.
func (m Model) open() (n int) {
	for i := range m.fields {
		if s := m.fieldState(i); s == missing || s == faulty {
			n++
		}
	}
	return n
}
