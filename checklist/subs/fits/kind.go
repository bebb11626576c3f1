package fits

import (
	"strings"

	"duskhand/checklist/subs"
)

// kind reads what the frame was taken for: IMAGETYP, or the keywords that stand in for it.
func kind(c cards) subs.Kind {
	for _, keyword := range []string{"IMAGETYP", "FRAME", "OBSTYPE"} {
		if text := c.words(keyword); text != "" {
			return spelled(text)
		}
	}
	return subs.UnknownKind
}

// spelled knows a kind by a word within the text, since programs write 'Light Frame', 'LIGHT' and
// 'light sub' alike. A dark of the flats is a dark: no light fell on it.
func spelled(text string) subs.Kind {
	text = strings.ToLower(text)
	for _, row := range []struct {
		word string
		kind subs.Kind
	}{
		{"dark", subs.Dark},
		{"flat", subs.Flat},
		{"bias", subs.Bias}, {"zero", subs.Bias}, {"offset", subs.Bias},
		{"light", subs.Light}, {"object", subs.Light}, {"science", subs.Light},
	} {
		if strings.Contains(text, row.word) {
			return row.kind
		}
	}
	return subs.UnknownKind
}
