// Package plan answers the questions of a night: when it is dark, when the target can be used, how the
// derotator runs through it, when it must be rewound, and how many subs that leaves.
//
// Everything here is a pure function of kit, target and time. Instants are UTC; angles of the derotator
// are mechanical, as its own scale reads. No clock is read and nothing is kept between calls.
package plan
