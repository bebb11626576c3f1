package clock

import "time"

// Machine is what the system says of its own clock.
type Machine struct {
	Zone         *time.Location // that it shows times in; nil if nobody asked a real machine
	Synchronised bool           // the system takes its clock to be right
	Known        bool           // the system says whether it is
}

// Machine returns what the system says of the clock. A replay and a clock that is led have no machine.
func (c Clock) Machine() Machine {
	if c.machine == nil {
		return Machine{}
	}
	return c.machine()
}

// OnMachine is the same clock on a machine that says so: for tests.
func (c Clock) OnMachine(m Machine) Clock {
	c.machine = func() Machine { return m }
	return c
}

func thisMachine() Machine {
	m := Machine{Zone: time.Local}
	m.Synchronised, m.Known = synchronised()
	return m
}
