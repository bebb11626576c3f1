package command

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"github.com/spf13/cobra"

	"duskhand/checklist"
)

const stepsLong = `Prints the checklist of the night as the program has it, as TOML: every step with what to do, why, its
caution and what must come before it.

A file steps.toml beside the kit changes it for you; it is checked with the kit by duskhand kit check:

  drop = ["dew-heaters"]           # steps that are not needed
  drop_guarded = ["cables-slack"]  # steps that others rely on; what they guard falls away
  [[add]]                          # the keys of a step, with before or after instead of stage
  id = "fetch-cat"
  after = "park"
  do = "Bring the cat in."
  why = "She follows the warm lens."
  [[move]]
  id = "darks"
  after = "caps-on"`

// ownSteps is the name of the operator's own file, beside the kit.
const ownSteps = "steps.toml"

// stepsBeside returns the checklist for a kit: the program's own, changed by the file beside the kit if
// there is one; that file's path, or "".
func stepsBeside(kitPath string) (checklist.List, string, error) {
	if kitPath == "" {
		return checklist.Steps(), "", nil
	}
	path := filepath.Join(filepath.Dir(kitPath), ownSteps)
	data, err := readSettings(path)
	if errors.Is(err, fs.ErrNotExist) {
		return checklist.Steps(), "", nil
	}
	if err != nil {
		return checklist.List{}, path, fmt.Errorf("reading the checklist: %w", err)
	}
	list, err := checklist.ReadOwn(data, path)
	return list, path, err
}

func (p Program) stepsCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "steps",
		Short:   "Print the checklist of the night, as TOML",
		Long:    stepsLong,
		Example: "  duskhand steps | less",
		Args:    noArguments,
		RunE: action(func(*cobra.Command, []string) error {
			_, err := p.out().Write(checklist.StepsTOML())
			return err
		}),
	}
}
