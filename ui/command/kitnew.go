package command

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"duskhand/plan/kit"
	"duskhand/ui/keys"
)

const kitNewLong = `Writes a new kit file with a comment above every key, and never over an old one unless --force is given.

In a terminal it asks, one by one, for what has no sensible default. An empty line leaves a key open, to
be filled in later in an editor; Ctrl-D leaves without writing anything. With --set a key is given
beforehand; where there is no terminal only --set counts. The keys of a list (target.name) make its
first item; site.place is latitude, longitude and height at once, subs.filters all filters in one line.
duskhand kit reference explains every key.

PATH is $XDG_CONFIG_HOME/duskhand/kit.toml if not given, which duskhand finds by itself.`

const kitNewExamples = `  duskhand kit new
  duskhand kit new ./garden.toml
  duskhand kit new --set "site.place=31°57'S 141°30'E, 210 m" --set "target.name=NGC 2070"
  duskhand kit new --set "subs.filters=L 60 s × 120, R, G, B 120 × 40"`

func (p Program) kitNewCommand(named *string) *cobra.Command {
	var set []string
	var force bool
	cmd := &cobra.Command{
		Use:     "new [PATH]",
		Short:   "Make a kit file",
		Long:    kitNewLong,
		Example: kitNewExamples,
		Args:    cobra.ArbitraryArgs,
		RunE: action(func(cmd *cobra.Command, args []string) error {
			path, err := pathFrom(cmd, args, *named)
			if err != nil {
				return err
			}
			return p.kitNew(path, set, force)
		}),
	}
	cmd.Flags().StringArrayVar(&set, "set", nil, "the value of one key, as `KEY=VALUE`; may be given many times")
	must(cmd.RegisterFlagCompletionFunc("set", func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		return setWords(begun), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	}))
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}

func (p Program) kitNew(path string, set []string, force bool) error {
	if path == "" {
		if path = p.newKitPath(); path == "" {
			return wrongUsef("there is no home folder to keep a kit file in; give a path")
		}
	}
	if err := vacant(path, force); err != nil {
		return err
	}
	answers, err := setAnswers(set)
	if err != nil {
		return err
	}
	data, err := p.newKit(answers)
	if err != nil {
		return err
	}
	if err := writeFile(path, data, force); err != nil {
		return err
	}
	return p.report(path)
}

// newKit returns the contents of the file: from the answers given, and from the person if there is one.
func (p Program) newKit(answers map[string]string) ([]byte, error) {
	if p.Streams.InTerminal {
		return newInterview(p).fill(answers)
	}
	data, err := kit.Template(answers, keys.KitRows()...)
	if err != nil {
		return nil, wrongUsef("--set: %w", err)
	}
	return data, nil
}

// setAnswers reads the values of --set.
func setAnswers(set []string) (map[string]string, error) {
	answers := map[string]string{}
	for _, each := range set {
		key, value, found := strings.Cut(each, "=")
		if key = strings.TrimSpace(key); !found || key == "" {
			return nil, wrongUsef("--set is %q; give key and value, as site.latitude=-31.95", each)
		}
		if _, twice := answers[key]; twice {
			return nil, wrongUsef("--set gives %s twice; give each key once (more items of a list go into the file)", key)
		}
		answers[key] = value
	}
	return answers, nil
}

// report reads the new file back and says where it is and what is next.
func (p Program) report(path string) error {
	k, err := readKit(path)
	var faults kit.Faults
	switch {
	case errors.As(err, &faults):
		_, err := fmt.Fprintf(p.out(), "Wrote %s.\nKeys still to be filled in: %s. Open it in an editor, then: duskhand kit check%s\n",
			path, strings.Join(keysOf(faults), ", "), p.pathHint(path))
		return err
	case err != nil:
		return err
	}
	_, err = fmt.Fprintf(p.out(), "Wrote %s.\n%sNext: set the keys that are still comments as you need them (horizon, axis), then: duskhand plan%s\n",
		path, summary(k), p.kitHint(path))
	return err
}

func keysOf(faults kit.Faults) (keys []string) {
	for _, fault := range faults {
		keys = append(keys, strings.ReplaceAll(fault.Key, "[1]", ""))
	}
	return keys
}

// pathHint and kitHint return what to type after a command so that it takes the file at path.
func (p Program) pathHint(path string) string {
	if path == p.newKitPath() {
		return ""
	}
	return " " + path
}

func (p Program) kitHint(path string) string {
	if path == p.newKitPath() {
		return ""
	}
	return " --kit " + path
}
