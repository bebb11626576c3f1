package command

import (
	"io"

	"duskhand/ui/draw"
)

// asciiWriter writes text for a terminal that takes nothing but ASCII. Every Write must hold whole
// characters.
type asciiWriter struct{ to io.Writer }

// Write writes text with look-alikes for what is not ASCII.
func (w asciiWriter) Write(text []byte) (int, error) {
	if _, err := io.WriteString(w.to, draw.ASCIIText(string(text))); err != nil {
		return 0, err
	}
	return len(text), nil
}
