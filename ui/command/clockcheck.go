package command

import (
	"fmt"
	"strings"
	"time"

	"duskhand/plan/kit"
	"duskhand/sky/words"
	"duskhand/ui/clock"
)

// clockCheck is what there is to say of the computer's clock. Asked is false where no machine stands behind
// it, as in a replay.
type clockCheck struct {
	Asked       bool
	ZoneName    string
	Offset      time.Duration // of the computer's zone from UTC, now
	Kit         time.Duration // of the kit's zone
	Sun         time.Duration // of the mean Sun at the site's longitude
	Known, Sync bool
}

// farFromSun is how far a zone may be from the Sun's time of its place on land: 3.2 h in the west of China.
const farFromSun = 5 * time.Hour

// checkClock compares the computer's zone with the site and asks whether the system takes its clock to be right.
func checkClock(m clock.Machine, site kit.Site, now time.Time) clockCheck {
	c := clockCheck{Asked: m.Zone != nil, Known: m.Known, Sync: m.Synchronised}
	if !c.Asked {
		return c
	}
	name, seconds := now.In(m.Zone).Zone()
	_, kits := now.In(site.Zone).Zone()
	c.ZoneName, c.Offset, c.Kit = name, time.Duration(seconds)*time.Second, time.Duration(kits)*time.Second
	c.Sun = time.Duration(site.Place.Longitude.Hours() * float64(time.Hour))
	return c
}

// zoneFits tells whether the computer's zone can be that of the site; UTC is no place's zone and always right.
func (c clockCheck) zoneFits() bool {
	off := (c.Offset - c.Sun).Abs()
	return c.Offset == 0 || off <= farFromSun || (off-24*time.Hour).Abs() <= farFromSun
}

// rows says it in lines of the card, none where there is nothing to ask.
func (c clockCheck) rows() []row {
	if !c.Asked {
		return nil
	}
	zone := fmt.Sprintf("%s, %s: as the kit's", c.ZoneName, words.OffsetOf(c.Offset))
	switch {
	case !c.zoneFits():
		zone = fmt.Sprintf("%s, %s, which is %s from the Sun's time at the site: is the computer set to the zone of another place?",
			c.ZoneName, words.OffsetOf(c.Offset), words.Lasting((c.Offset - c.Sun).Round(time.Hour)))
	case c.Offset != c.Kit:
		zone = fmt.Sprintf("%s, %s, where the kit has %s: copy no time from its other programs", c.ZoneName, words.OffsetOf(c.Offset), words.OffsetOf(c.Kit))
	}
	right := "the system does not say whether it is right: compare it with a time signal"
	switch {
	case c.Known && c.Sync:
		right = "the system says that it is synchronised"
	case c.Known:
		right = "the system says that it is NOT synchronised: compare it with a time signal"
	}
	return []row{{"its zone", zone}, {"its time", right}}
}

// clockSummary says the same in whole lines, "" where there is nothing to ask.
func clockSummary(c clockCheck) string {
	var lines strings.Builder
	for _, r := range c.rows() {
		fmt.Fprintf(&lines, "the computer's clock, %s: %s\n", r.label, r.text)
	}
	return lines.String()
}

// line says it in one line of the screens, for when they open; "" where there is nothing to ask.
func (c clockCheck) line() string {
	if !c.Asked {
		return ""
	}
	zone := "the computer's zone is the kit's"
	switch {
	case !c.zoneFits():
		zone = fmt.Sprintf("the computer's zone, %s, is %s off the Sun", c.ZoneName, words.Lasting((c.Offset - c.Sun).Round(time.Hour).Abs()))
	case c.Offset != c.Kit:
		zone = fmt.Sprintf("the computer's zone, %s, is not the kit's", c.ZoneName)
	}
	switch {
	case c.Known && c.Sync:
		return zone + "; its clock is synchronised"
	case c.Known:
		return zone + "; its clock is NOT synchronised"
	}
	return zone + "; is its clock right?"
}
