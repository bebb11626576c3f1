// Package supplies says whether the night lasts: whether the glass stays dry, whether the disk holds the subs,
// and whether the battery reaches the morning.
//
// Everything here is a pure function. What the kit does not give takes away only the answers that need it, and
// is named.
package supplies
