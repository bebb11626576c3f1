package command

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"duskhand/sky/decimal"
)

// numberFlag is a flag's number as a person types one; NaN as long as none is given and none holds without it.
type numberFlag float64

// numberVar adds a flag that takes a number, decimal comma and all.
func numberVar(flags *pflag.FlagSet, into *float64, name string, fallback float64, usage string) {
	*into = fallback
	flags.Var((*numberFlag)(into), name, usage)
}

func (n *numberFlag) Set(text string) error {
	x, err := decimal.Parse(text)
	if err != nil {
		return err
	}
	*n = numberFlag(x)
	return nil
}

func (n *numberFlag) String() string {
	if math.IsNaN(float64(*n)) {
		return ""
	}
	return strconv.FormatFloat(float64(*n), 'g', -1, 64)
}

func (n *numberFlag) Type() string { return "number" }

// flagError says in our words what is wrong with a flag.
func flagError(cmd *cobra.Command, err error) error {
	var invalid *pflag.InvalidValueError
	if !errors.As(err, &invalid) {
		return withHelp(cmd, err)
	}
	name, wanted := "--"+invalid.GetFlag().Name, "a number, as 2.5 or 2,5"
	switch invalid.GetFlag().Value.Type() {
	case "bool":
		return withHelp(cmd, wrongUsef("%s is %q; leave the value out, or give true or false", name, invalid.GetValue()))
	case "int":
		wanted = "a whole number, as 12"
	}
	value, _ := pflag.UnquoteUsage(invalid.GetFlag())
	if value = strings.TrimSpace(value); value != "" && value != "number" && value != "int" && value != "N" {
		wanted += ", for " + value
	}
	return withHelp(cmd, wrongUsef("%s is %q; give %s", name, invalid.GetValue(), wanted))
}
