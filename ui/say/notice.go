package say

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"duskhand/checklist/subs/arrival"
	"duskhand/sky/foreign"
	"duskhand/sky/words"
)

// Notice says what is odd about frames that have arrived, without the instant.
func Notice(n arrival.Notice) string {
	name := foreign.Name(filepath.Base(n.Path))
	switch n.Kind {
	case arrival.Silent:
		return silence(n)
	case arrival.WrongExposure:
		return fmt.Sprintf("%s was exposed for %s; the kit has %s for %s", name, words.Exposure(n.Exposure), words.Exposure(n.Wanted), n.Filter)
	case arrival.UnknownFilter:
		if n.Filter == "" {
			return name + " does not say its filter; name it when subs are started, or have the capture program write FILTER"
		}
		return fmt.Sprintf("%s was taken through %q; the kit has %s; if it is one of these, add also_written = %q to its [[subs.filter]]",
			name, n.Filter, strings.Join(n.Filters, ", "), n.Filter)
	case arrival.OtherObject:
		return fmt.Sprintf("%s says that it is of %s, but the target is %s; see where the mount points, or correct the name", name, foreign.Name(n.Named), n.Target)
	case arrival.SensorOff:
		return fmt.Sprintf("the sensor was at %s in %s, its set point is %s; see whether the cooler is on and keeps up",
			words.Celsius(n.SensorC, 1), name, words.Celsius(n.SetPointC, 1))
	case arrival.Spoilt:
		if n.Spoils == arrival.PastLimit {
			return name + " goes on past the derotator's limit, where the field turns; leave it out, and rewind"
		}
		return name + " was being exposed while the derotator was rewound; leave it out"
	case arrival.NotALight:
		return fmt.Sprintf("%s is a %s by its header, and is not counted; lights are being taken", name, n.Header)
	case arrival.Copied:
		return fmt.Sprintf("%s has the same DATE-OBS as %s, so the two count once; if they are two subs, see to the capture computer's clock",
			name, foreign.Name(filepath.Base(n.Copy)))
	case arrival.ClockOff:
		return clockOff(n.Clock, n.Ahead)
	case arrival.DiskShort:
		return fmt.Sprintf("the disk has room for %d more subs of %.1f MB, but %d are planned; make room", n.Subs, float64(n.Each)/1e6, n.Left)
	}
	return n.Error
}

func silence(n arrival.Notice) string {
	if n.None {
		return fmt.Sprintf("no sub in the %s since subs were started; has the sequence begun, and does it write to the folder that is watched?", words.Lasting(n.Silence))
	}
	return fmt.Sprintf("no new sub for %s; has the sequence stopped?", words.Lasting(n.Silence))
}

// clockOff says by how much a clock is off. Which of two is right nobody here knows.
func clockOff(clock arrival.Clock, ahead time.Duration) string {
	by := func(ahead time.Duration) string {
		if ahead > 0 {
			return words.Lasting(ahead) + " ahead of"
		}
		return words.Lasting(-ahead) + " behind"
	}
	switch clock {
	case arrival.LocalTime:
		return fmt.Sprintf("DATE-OBS is %s UTC, so it seems to be local time; have the capture program write UTC", by(ahead))
	case arrival.Capture:
		return fmt.Sprintf("the capture computer's clock is %s this one; set the one that is wrong", by(ahead))
	}
	return fmt.Sprintf("the files' times are %s this clock; set the clock of the computer that keeps the folder", by(ahead))
}
