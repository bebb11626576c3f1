package command

import (
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

const manLong = `Writes the manual page in the form that man reads, made from what --help says: every command with its flags.`

const manExamples = `  duskhand man > duskhand.1 && man -l duskhand.1
  duskhand man > ~/.local/share/man/man1/duskhand.1`

func (p Program) manCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "man",
		Short:   "Write the manual page",
		Long:    manLong,
		Example: manExamples,
		Args:    noArguments,
		RunE: action(func(cmd *cobra.Command, _ []string) error {
			_, err := io.WriteString(p.Streams.Out, manual(cmd.Root()))
			return err
		}),
	}
}

// manual returns the page of a command and of all below it.
func manual(root *cobra.Command) string {
	root.InitDefaultHelpFlag() // cobra adds these two only to the command that it runs
	root.InitDefaultVersionFlag()
	var r roff
	r.macro("TH", strings.ToUpper(root.Name()), "1", "", root.Name()+" "+root.Version, "User Commands")
	r.macro("SH", "NAME")
	r.line(roffText(root.Name()) + ` \- ` + roffText(lowerFirst(root.Short)))
	r.macro("SH", "SYNOPSIS")
	r.line(`\fB` + roffText(root.Name()) + `\fR [\fIflags\fR]`)
	r.macro("br")
	r.line(`\fB` + roffText(root.Name()) + `\fR \fIcommand\fR [\fIflags\fR] [\fIargument\fR...]`)
	r.macro("SH", "DESCRIPTION")
	r.prose(root.Long)
	r.macro("SH", "OPTIONS")
	r.options(root)
	r.macro("SH", "COMMANDS")
	r.commands(root)
	r.macro("SH", "EXAMPLES")
	r.prose(root.Example)
	return r.out.String()
}

// commands writes a part for each command below a command, depth first.
func (r *roff) commands(above *cobra.Command) {
	for _, c := range above.Commands() {
		if !c.IsAvailableCommand() {
			continue
		}
		r.macro("SS", strings.TrimSuffix(c.UseLine(), " [flags]"))
		if c.Long == "" {
			r.line(roffLine(c.Short + "."))
		}
		r.prose(c.Long)
		r.options(c)
		if c.Example != "" {
			r.macro("PP")
			r.line("Examples:")
			r.prose(c.Example)
		}
		r.commands(c)
	}
}

// options writes the flags that are a command's own.
func (r *roff) options(c *cobra.Command) {
	c.NonInheritedFlags().VisitAll(func(f *pflag.Flag) {
		if f.Hidden || f.Name == "help" && c.HasParent() {
			return
		}
		value, usage := pflag.UnquoteUsage(f)
		tag := "--" + f.Name
		if f.Shorthand != "" {
			tag = "-" + f.Shorthand + ", " + tag
		}
		if value != "" {
			tag += " " + value
		}
		r.tagged(tag, usage)
	})
}

func lowerFirst(text string) string { return strings.ToLower(text[:1]) + text[1:] }
