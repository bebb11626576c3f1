package hook

import (
	"strconv"
	"time"

	"duskhand/sky"
)

// Happening is something that happened in the night. What is not known is zero or nil, and its variable is
// then empty.
type Happening struct {
	Event    string // one of kit.NightEvents
	At       time.Time
	Night    string // date of the evening
	Target   string
	Run      int        // number of the run in the night, from 1
	Angle    *sky.Angle // the derotator's, mechanical
	RewindBy time.Time  // when the rewind must be called, or the window closes
}

// Variable is one of the variables that programs find in their environment.
type Variable struct {
	Name, Meaning string
	value         func(Happening) string
}

// Variables returns the table of variables: what Run sets and documents name.
func Variables() []Variable {
	return []Variable{
		{"DUSKHAND_EVENT", "what happened: limit-near, rewind-due, rewound, run-started, target-done", func(h Happening) string { return h.Event }},
		{"DUSKHAND_UTC", "when, UTC, RFC 3339", func(h Happening) string { return stamp(h.At) }},
		{"DUSKHAND_NIGHT", "date of the evening, 2026-12-05", func(h Happening) string { return h.Night }},
		{"DUSKHAND_TARGET", "name of the target", func(h Happening) string { return h.Target }},
		{"DUSKHAND_RUN", "number of the run in the night, from 1", func(h Happening) string { return number(h.Run) }},
		{"DUSKHAND_ANGLE_DEG", "the derotator's angle, as its scale shows it", func(h Happening) string { return degrees(h.Angle) }},
		{"DUSKHAND_REWIND_BY_UTC", "when the run's last sub must be over, UTC, RFC 3339", func(h Happening) string { return stamp(h.RewindBy) }},
		{"DUSKHAND_SECONDS_LEFT", "whole seconds from DUSKHAND_UTC to that, negative when it has passed", secondsLeft},
	}
}

func (h Happening) environment() (set []string) {
	for _, v := range Variables() {
		set = append(set, v.Name+"="+v.value(h))
	}
	return set
}

func stamp(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Truncate(time.Second).Format(time.RFC3339)
}

func number(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func degrees(a *sky.Angle) string {
	if a == nil {
		return ""
	}
	return strconv.FormatFloat(a.Degrees(), 'f', 1, 64)
}

func secondsLeft(h Happening) string {
	if h.RewindBy.IsZero() || h.At.IsZero() {
		return ""
	}
	return strconv.FormatInt(int64(h.RewindBy.Sub(h.At).Truncate(time.Second)/time.Second), 10)
}
