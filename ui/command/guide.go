package command

import (
	_ "embed"
	"io"
	"regexp"

	"github.com/spf13/cobra"
)

const guideLong = `Prints the guide: the example night from set-up to pack-up, screen by screen and key by key.`

const guideExamples = `  duskhand guide | less
  duskhand guide > night.md`

// guideText is the guide with a mark above each excerpt, for the test that makes them anew.
//
//go:embed guide.md
var guideText string

// guidePage returns the guide as it is read: without those marks.
func guidePage() string {
	return regexp.MustCompile(`(?m)^<!-- shown: [a-z-]+ -->\n`).ReplaceAllString(guideText, "")
}

func (p Program) guideCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "guide",
		Short:   "Print the guide: a night from set-up to pack-up",
		Long:    guideLong,
		Example: guideExamples,
		Args:    noArguments,
		RunE: action(func(*cobra.Command, []string) error {
			_, err := io.WriteString(p.out(), guidePage())
			return err
		}),
	}
}
