package fits_test

import (
	"bytes"
	"fmt"
	"strings"

	"duskhand/checklist/subs/fits"
)

// header returns a header of these cards as it stands in a file. Each is a keyword with its value.
func header(cards ...string) []byte {
	var b strings.Builder
	for _, card := range cards {
		keyword, value, has := strings.Cut(card, "=")
		if has {
			card = fmt.Sprintf("%-8s= %s", strings.TrimSpace(keyword), value)
		}
		b.WriteString(card + strings.Repeat(" ", 80-len(card))) // in bytes
	}
	fmt.Fprintf(&b, "%-80s", "END")
	return padded([]byte(b.String()), ' ')
}

func padded(data []byte, with byte) []byte {
	if short := len(data) % 2880; short > 0 {
		data = append(data, bytes.Repeat([]byte{with}, 2880-short)...)
	}
	return data
}

// small are the cards of a frame of 4 × 3 pixels of 16 bits; more come behind them.
func small(more ...string) []string {
	return append([]string{"SIMPLE=T", "BITPIX=16", "NAXIS=2", "NAXIS1=4", "NAXIS2=3"}, more...)
}

// instead replaces the card of a keyword among those of small.
func instead(card string) []string {
	cards := small()
	keyword, _, _ := strings.Cut(card, "=")
	for i := range cards {
		if strings.HasPrefix(cards[i], keyword+"=") {
			cards[i] = card
		}
	}
	return cards
}

// file returns a whole file of a header and that many bytes of data.
func file(data int, cards ...string) []byte {
	return append(header(cards...), padded(make([]byte, data), 0)...)
}

func read(content []byte) (*fits.Frame, error) {
	return fits.Read("night.fits", bytes.NewReader(content), int64(len(content)))
}
