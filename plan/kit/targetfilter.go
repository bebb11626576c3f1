package kit

import (
	"fmt"
	"slices"
	"time"
)

// TargetFilter is what is wanted of one target through one of the kit's filters: 0 for what the kit's own entry
// says.
type TargetFilter struct {
	Name     string
	Exposure time.Duration
	Count    int
}

// SubsFor returns what is wanted of a target: the kit's subs, or, where the target has filters of its own, those
// alone. The filters are always all of the kit's in its order, so that counts by number mean the same for every
// target; those that the target does without have a count of 0.
func (k Kit) SubsFor(t Target) Subs { return k.Subs.with(t.Filters) }

// SubsNamed is SubsFor for a target by its name in the kit, the kit's own subs for any other name.
func (k Kit) SubsNamed(target string) Subs {
	i := slices.IndexFunc(k.Targets, func(t Target) bool { return t.Name == target })
	if i < 0 {
		return k.Subs
	}
	return k.SubsFor(k.Targets[i])
}

// For returns the kit with its subs as a target wants them.
func (k Kit) For(t Target) Kit {
	k.Subs = k.SubsFor(t)
	return k
}

func (s Subs) with(own []TargetFilter) Subs {
	if len(own) == 0 {
		return s
	}
	s.Filters = slices.Clone(s.Filters)
	for i := range s.Filters {
		f := &s.Filters[i]
		at := slices.IndexFunc(own, func(o TargetFilter) bool { return o.Name == f.Name })
		if at < 0 {
			f.Count = 0
			continue
		}
		if own[at].Exposure > 0 {
			f.Exposure = own[at].Exposure
		}
		if own[at].Count > 0 {
			f.Count = own[at].Count
		}
	}
	return s
}

// Wanted returns the filters through which subs are wanted.
func (s Subs) Wanted() []Filter {
	return slices.DeleteFunc(slices.Clone(s.Filters), func(f Filter) bool { return f.Count == 0 })
}

func (d *draft) targetFilter() *TargetFilter {
	own := d.kit.Targets[d.outer].Filters
	return &own[len(own)-1]
}

func targetFilterFields() []field {
	return []field{
		{key: "target.filter.name", kind: text, min: 1, max: 20, need: required, example: "L",
			help: "One of the filters under [[subs.filter]].",
			set:  func(d *draft, v value) { d.targetFilter().Name = v.text }},
		{key: "target.filter.exposure_s", kind: number, unit: "s", min: 0.001, max: 7200, need: optional, example: "120",
			help: "Length of one sub of this target; that of the filter if left out.",
			set:  func(d *draft, v value) { d.targetFilter().Exposure = v.seconds() }},
		{key: "target.filter.count", kind: whole, unit: "subs", min: 1, max: 100000, need: optional, example: "60",
			help: "Subs wanted of this target in total; those of the filter if left out.",
			set:  func(d *draft, v value) { d.targetFilter().Count = v.whole() }},
	}
}

// checkTargetFilters finds filters that the kit does not have, and those that a target names twice.
func (r *reader) checkTargetFilters(t *Target, path string) {
	list := path + ".filter"
	r.distinct(list, "name", len(t.Filters), "give each filter of a target once")
	var known []string
	for _, f := range r.draft.kit.Subs.Filters {
		known = append(known, f.Name)
	}
	if len(known) == 0 {
		return // its own fault
	}
	for i, f := range t.Filters {
		at := item(list, i+1) + ".name"
		if !r.sound(at) || slices.Contains(known, f.Name) || slices.Contains(known, "") {
			continue
		}
		r.fault(at, fmt.Sprintf("= %s is none of the kit's filters; give %s, or add it under [[subs.filter]]", shown(f.Name), either(known)))
	}
}
