package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"duskhand/checklist"
	"duskhand/plan/kit"
	"duskhand/ui/facts"
	"duskhand/ui/frame"
	"duskhand/ui/page"
	"duskhand/ui/theme"
)

// pageAsked is what the person said about the picture.
type pageAsked struct {
	path         string
	paper, force bool
}

// writePage writes the night's page: every target as it looks at the beginning of the night.
func (p Program) writePage(asked pageAsked, planned planned) error {
	ink := theme.DarkInk()
	if asked.paper {
		ink = theme.PrintInk()
	}
	var nights []page.Night
	for _, t := range planned.targets {
		nights = append(nights, page.Night{Told: planned.toldAtDusk(t.target), Price: t.price})
	}
	var out bytes.Buffer
	if err := page.Write(&out, ink, planned.night.Kit, planned.night.Date, nights); err != nil {
		return err
	}
	return p.putPage(asked, out.Bytes())
}

// putPage writes a picture where the person asked for it.
func (p Program) putPage(asked pageAsked, picture []byte) error {
	switch asked.path {
	case "":
		return wrongUsef("--svg needs the path of a file, or - for standard output")
	case "-":
		_, err := p.Streams.Out.Write(picture)
		return err
	}
	if ending := filepath.Ext(asked.path); ending != "" && !strings.EqualFold(ending, ".svg") {
		return wrongUsef("--svg writes an SVG picture, and %s would be taken for another kind; give a name that ends in .svg", asked.path)
	}
	if err := vacant(asked.path, asked.force); err != nil {
		return err
	}
	if folder := filepath.Dir(asked.path); !isFolder(folder) { // writeFile would make it, and a slip would go unseen
		return fmt.Errorf("there is no folder %s; make it, or give another path", folder)
	}
	if err := writeFile(asked.path, picture, asked.force); err != nil {
		return err
	}
	fmt.Fprintf(p.messages(), "Written: %s\n", asked.path)
	return nil
}

// toldAtDusk is a target's framing before anything has happened in the night.
func (planned planned) toldAtDusk(target kit.Target) frame.Told {
	log := checklist.Night{Target: &checklist.Target{Name: target.Name, Star: target.Star}, Divided: &checklist.Division{}}
	if planned.divided != nil {
		for _, t := range planned.targets {
			weight := t.target.Share
			if !shares(planned.night.Kit) {
				weight = 1
			}
			log.Divided.Parts = append(log.Divided.Parts, checklist.Part{Target: t.target.Name, Weight: weight})
		}
	}
	tonight := facts.For(planned.night.Kit, planned.night.Date, log, planned.night.Span.From, nil)
	run := tonight.At(planned.night.Span.From)
	return frame.Told{Frame: run.FrameAt(tonight.FramingOf()), Run: run}
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
