package words

import (
	"fmt"
	"time"
)

// shownBySecond is up to where a length is told in seconds: "90 s" says more than "2 min".
const shownBySecond = 100 * time.Second

// Lasting returns a length of time to the nearest second below 100 s, to the nearest minute from there on: "45 s",
// "16 min", "5 h 02 min". The sign of d is not told.
func Lasting(d time.Duration) string {
	d = d.Abs()
	if d.Round(time.Second) < shownBySecond {
		return seconds(d.Round(time.Second))
	}
	return minutes(d.Round(time.Minute))
}

// LastingAtMost is Lasting, cut down: what there is of it at least, so that nobody counts on more.
func LastingAtMost(d time.Duration) string {
	if d < shownBySecond {
		return seconds(d.Truncate(time.Second))
	}
	return minutes(d.Truncate(time.Minute))
}

// ToSecond returns a length of time to the nearest second below an hour: "45 s", "3 min 05 s", "5 h 02 min".
func ToSecond(d time.Duration) string {
	d = d.Abs().Round(time.Second)
	switch {
	case d < time.Minute:
		return seconds(d)
	case d < time.Hour:
		return fmt.Sprintf("%d min %02d s", d/time.Minute, d%time.Minute/time.Second)
	}
	return minutes(d.Round(time.Minute))
}

func seconds(whole time.Duration) string { return fmt.Sprintf("%d s", whole/time.Second) }

func minutes(whole time.Duration) string {
	if whole < time.Hour {
		return fmt.Sprintf("%d min", whole/time.Minute)
	}
	return fmt.Sprintf("%d h %02d min", whole/time.Hour, whole%time.Hour/time.Minute)
}

// Narrow returns a length of time in hours and minutes where there is little room: "5h02".
func Narrow(d time.Duration) string {
	d = d.Round(time.Minute)
	return fmt.Sprintf("%dh%02d", d/time.Hour, d%time.Hour/time.Minute)
}

// Countdown returns a time left, cut down to the second, for big digits: minutes and seconds below an hour, "16:27",
// hours and minutes with an h between them from there on, "4h29", so that the one is never read as the other. unit
// says which. What is past counts as nothing left.
func Countdown(left time.Duration) (digits, unit string) {
	left = max(0, left.Truncate(time.Second))
	if left >= time.Hour {
		return Narrow(left.Truncate(time.Minute)), "hours and minutes"
	}
	return fmt.Sprintf("%d:%02d", left/time.Minute, left%time.Minute/time.Second), "minutes and seconds"
}

// Exposure returns a shutter time in seconds, with the decimals that it has, three at most: "60 s", "0.5 s".
func Exposure(d time.Duration) string { return Figure(d.Seconds(), 3) + " s" }

// The lengths from which a bound of an exposure is told in whole seconds, and in minutes.
const (
	tenthsBelow = 10 * time.Second
	minutesFrom = 10 * time.Minute
)

// ExposureAtMost returns how long an exposure may be at most, cut down to a tenth of a second below 10 s, to the
// second below 10 min, to the minute from there on: "4.5 s", "540 s", "12 min".
func ExposureAtMost(d time.Duration) string { return bound(d.Truncate(stepOf(d))) }

// ExposureAtLeast is ExposureAtMost for how long one must be at least, rounded up.
func ExposureAtLeast(d time.Duration) string {
	step := stepOf(d)
	return bound((d + step - 1).Truncate(step))
}

func stepOf(d time.Duration) time.Duration {
	switch {
	case d < tenthsBelow:
		return time.Second / 10
	case d < minutesFrom:
		return time.Second
	}
	return time.Minute
}

func bound(d time.Duration) string {
	switch {
	case d < tenthsBelow:
		return Number(d.Seconds(), 1) + " s"
	case d < minutesFrom:
		return seconds(d)
	}
	return minutes(d)
}
