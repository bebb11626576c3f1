package clock

import "time"

// Machine is what the system says of its own clock.
type Machine struct {
	Zone         *time.Location // that it shows times in; nil if nobody asked a real machine
	Synchronised bool           // the system takes its clock to be right
	Known        bool           // the system says whether it is
}

// Machine returns what the system says of the clock. A replay has no machine.
func (c Clock) Machine() Machine {
	if c.source.Machine == nil {
		return Machine{}
	}
	return c.source.Machine()
}

func thisMachine() Machine {
	m := Machine{Zone: time.Local}
	m.Synchronised, m.Known = synchronised()
	return m
}
