package kit

import (
	"bytes"
	"fmt"
)

// Reference returns the description of every key of the kit file, as Markdown: a heading for each table
// and a row for each key. keys are the rows of [keys].
func Reference(keys ...KeyRow) []byte {
	var out bytes.Buffer
	for _, t := range tables() {
		fmt.Fprintf(&out, "## `%s`\n\n%s\n\n", t.header(), t.help)
		fmt.Fprint(&out, "| key | meaning | value | example |\n|---|---|---|---|\n")
		for _, f := range fields() {
			in, name := f.split()
			if in != t.name {
				continue
			}
			fmt.Fprintf(&out, "| `%s` | %s | %s | `%s` |\n", name, f.help, f.terms(), literal(f.typed(f.example)))
		}
		if t.name == keysTable {
			for _, k := range keys {
				fmt.Fprintf(&out, "| `%s` | %s | %s | `%s` |\n", k.Name, k.Help, k.terms(), k.value())
			}
		}
		out.WriteByte('\n')
	}
	return append(bytes.TrimRight(out.Bytes(), "\n"), '\n')
}
