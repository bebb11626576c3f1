package command

import (
	"embed"
	"io"
	"regexp"
	"strings"

	"github.com/spf13/cobra"
)

const guideLong = `Prints the guide: the example night from set-up to pack-up, screen by screen and key by key.
With the name of another page, that one:

`

const guideExamples = `  duskhand guide | less
  duskhand guide kit
  duskhand guide > night.md`

// guidePage is one page of the guide: its name, what it is about, and its file, in which a mark stands above each
// excerpt for the test that makes them anew.
type guidePage struct{ name, about, file string }

func guidePages() []guidePage {
	return []guidePage{
		{"night", "the example night from set-up to pack-up; without a name, this one", "guide.md"},
		{"screens", "each screen with its picture; palettes, darkness, ears and eyes", "guide-screens.md"},
		{"kit", "watched folders, several targets, filters and Moon, guiding, cables, alarms", "guide-kit.md"},
		{"scripts", "a second screen, status lines, scripts, programs of your own, compute", "guide-scripts.md"},
		{"changes", "what has changed", "guide-changes.md"},
	}
}

//go:embed guide*.md
var guideFiles embed.FS

// text returns the page as it is read: without the marks.
func (g guidePage) text() (string, error) {
	text, err := guideFiles.ReadFile(g.file)
	return regexp.MustCompile(`(?m)^<!-- shown: [a-z-]+ -->\n`).ReplaceAllString(string(text), ""), err
}

// guidePageNamed returns the page of one name, the night if there is none.
func guidePageNamed(names []string) (guidePage, error) {
	pages := guidePages()
	if len(names) == 0 {
		return pages[0], nil
	}
	for _, g := range pages {
		if len(names) == 1 && g.name == names[0] {
			return g, nil
		}
	}
	return guidePage{}, wrongUsef("the guide has no page %q; give one of %s",
		strings.Join(names, " "), strings.Join(guidePageNames(), ", "))
}

func guidePageNames() (names []string) {
	for _, g := range guidePages() {
		names = append(names, g.name)
	}
	return names
}

func (p Program) guideCommand() *cobra.Command {
	long := guideLong
	for _, g := range guidePages() {
		long += "  " + g.name + strings.Repeat(" ", 9-len(g.name)) + g.about + "\n"
	}
	return &cobra.Command{
		Use:       "guide [PAGE]",
		Short:     "Print the guide: a night from set-up to pack-up",
		Long:      strings.TrimRight(long, "\n"),
		Example:   guideExamples,
		Args:      cobra.ArbitraryArgs, // refused below, in our words
		ValidArgs: guidePageNames(),
		RunE: action(func(cmd *cobra.Command, args []string) error {
			g, err := guidePageNamed(args)
			if err != nil {
				return withHelp(cmd, err)
			}
			text, err := g.text()
			if err != nil {
				return err
			}
			_, err = io.WriteString(p.out(), text)
			return err
		}),
	}
}
