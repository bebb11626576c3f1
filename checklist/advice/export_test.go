package advice

// Planned returns how many schedules are kept for the night.
func (t *Tonight) Planned() int { return len(t.kept.schedules) }
