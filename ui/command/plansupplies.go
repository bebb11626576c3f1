package command

import (
	"bytes"
	"fmt"

	"duskhand/plan"
	"duskhand/sky"
	"duskhand/sky/words"
	"duskhand/ui/facts"
	"duskhand/ui/say"
)

// suppliesJSON is whether the night lasts. When the target may be in the keyhole stands with its windows.
type suppliesJSON struct {
	Data     dataJSON   `json:"data" doc:"of all subs of a divided night; else of the target that takes the most, with the night to itself"`
	DiskFull *string    `json:"disk_full_at" doc:"when the first sub begins that finds no room; null if all do, or what is free is not known"`
	Power    *powerJSON `json:"power" doc:"from sunset to sunrise; null if the Sun does not set"`
	Refocus  *float64   `json:"refocus_k" doc:"by how much the tube may cool before it must be focused again, K; null if it does not grow"`
}

// planSupplies is what a plan asks of disk, battery and focus.
type planSupplies struct {
	facts.Supplies
	diskFull  sky.Event
	refocus   plan.Refocus
	focusGoes bool // refocus is known
}

func suppliesIn(p planned) (s planSupplies) {
	k := p.night.Kit
	subs := mostSubs(p)
	folder := ""
	if len(k.Watch.Folders) > 0 {
		folder = k.Watch.Folders[0]
	}
	disk := facts.Disk{}
	if folder != "" {
		disk = freeAt(folder)
	}
	s.Supplies = facts.SuppliesFor(k, p.night, len(subs), disk)
	if s.Room != nil {
		s.diskFull = s.Room.FullAt(subs)
	}
	s.refocus, s.focusGoes = plan.MainTelescope(k.Optics).RefocusAt(0)
	return s
}

// mostSubs returns the subs of the targets that follow one another, or of the one that takes the most.
func mostSubs(p planned) (most []plan.Sub) {
	for _, targets := range p.sequences() {
		var subs []plan.Sub
		for _, t := range targets {
			for _, run := range t.runs.Runs {
				subs = append(subs, run.Subs...)
			}
		}
		if len(subs) > len(most) {
			most = subs
		}
	}
	return most
}

// writeSupplies says whether disk, battery and focus last.
func writeSupplies(out *bytes.Buffer, p planned) {
	s := suppliesIn(p)
	zone := p.night.Kit.Site.Zone
	out.WriteString("Supplies\n")
	if len(p.targets) > 0 {
		fmt.Fprintf(out, "  %s\n", say.Room(s.Supplies).Text)
		if s.diskFull.OK {
			fmt.Fprintf(out, "  The disk is full at %s.\n", words.MinuteWithZone(s.diskFull.At, zone))
		}
	}
	fmt.Fprintf(out, "  %s\n", say.Power(s.Supplies).Text)
	if s.focusGoes {
		fmt.Fprintf(out, "  Focus holds until the tube has cooled by %s since it was focused.\n", words.Kelvin(s.refocus.ChangeK))
	}
}

func suppliesOf(p planned) suppliesJSON {
	s := suppliesIn(p)
	j := suppliesJSON{Data: dataOf(s.Supplies), DiskFull: stamp(s.diskFull), Power: powerOf(s.Supplies)}
	if s.focusGoes {
		j.Refocus = pointer(hundredths(s.refocus.ChangeK))
	}
	return j
}
