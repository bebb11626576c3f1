package command

import (
	"bytes"

	"duskhand/sky/words"
)

// writeMore writes what the plan has to say beside runs and subs, after the targets.
func writeMore(out *bytes.Buffer, p planned, local words.Wall) {
	var more bytes.Buffer
	writeGuiding(&more, p, local)
	writeCables(&more, p, local)
	writeSupplies(&more, p)
	if more.Len() > 0 {
		out.WriteString("\n")
		out.Write(more.Bytes())
	}
}
