package kit

import (
	"errors"
	"fmt"
	"strings"

	"duskhand/sky/catalog"
)

func (r *reader) checkTargets() {
	r.distinct("target", "name", len(r.draft.kit.Targets), "give each target once, under a name of its own")
	for i := range r.draft.kit.Targets {
		r.checkTarget(&r.draft.kit.Targets[i], item("target", i+1))
	}
}

// checkTarget gives the target its line, and its place unless the file does.
func (r *reader) checkTarget(t *Target, path string) {
	name, ra, dec := path+".name", path+".ra", path+".dec"
	t.Line = r.lines.of(name)
	r.checkTargetFilters(t, path)
	switch {
	case r.given[ra] != r.given[dec]:
		present, absent := ra, dec
		if r.given[dec] {
			present, absent = dec, ra
		}
		r.fault(present, fmt.Sprintf("stands alone; give %s too, or neither to use the catalogue's place", absent))
	case r.given[ra]:
		return
	default:
		for _, motion := range []string{path + ".pm_ra_mas_yr", path + ".pm_dec_mas_yr"} {
			if r.given[motion] {
				r.fault(motion, "needs ra and dec; leave it out to use the catalogue's place and motion")
			}
		}
		r.lookUp(t, name)
	}
}

func (r *reader) lookUp(t *Target, path string) {
	if !r.sound(path) {
		return
	}
	object, problem := find(t.Name)
	if problem != "" {
		r.fault(path, problem)
		return
	}
	t.Object, t.Star = object, object.Star
}

// find looks name up in the catalogue.
func find(name string) (object catalog.Object, problem string) {
	object, err := catalog.Find(name)
	var stranger *catalog.UnknownNameError
	switch {
	case errors.As(err, &stranger) && len(stranger.Near) > 0:
		return object, fmt.Sprintf("= %s is not in the catalogue; did you mean %s? Or give ra and dec", shown(name), either(stranger.Near))
	case err != nil:
		return object, fmt.Sprintf("= %s is not in the catalogue; give ra and dec too, or another of its names", shown(name))
	}
	return object, ""
}

// either joins names as a question does: "a", "a or b", "a, b or c".
func either(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
