package kit

import (
	"errors"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// unreadable is a document that is no TOML from line on.
type unreadable struct{ line int }

// lineOfError returns the line at which the parser gave up.
func (s *surveyor) lineOfError(err error) int {
	var at *unstable.ParserError
	if !errors.As(err, &at) || at.Highlight == nil {
		return s.lineAt(len(s.data))
	}
	return s.lineAt(int(s.parser.Range(at.Highlight).Offset))
}

// fault says in our words what is wrong with the line, from what the line looks like. The parser's own
// words are those of a grammar.
func (u unreadable) fault(data []byte) Fault {
	line := ""
	if all := strings.Split(string(data), "\n"); u.line <= len(all) {
		line = strings.TrimSpace(all[u.line-1])
	}
	return Fault{Line: u.line, Problem: fmt.Sprintf("%s can't be read: %s", shown(line), remedy(line))}
}

// remedy returns the likeliest mending of a line that is no TOML.
func remedy(line string) string {
	key, right, assigned := strings.Cut(line, "=")
	right = strings.TrimSpace(right)
	bare := strings.TrimLeft(right, "+-0123456789")
	switch {
	case strings.HasPrefix(line, "["):
		return "a table's name stands between brackets, like [site] or [[target]], alone on its line"
	case !assigned:
		return `every line is key = value, a [table], or a # comment`
	case strings.TrimSpace(key) == "":
		return "the key before the = is missing"
	case right == "":
		return "the value after the = is missing"
	case strings.Count(right, `"`)%2 == 1:
		return `a double quote is missing at one end of the text`
	case bare != right && strings.HasPrefix(bare, ","):
		return "decimals take a point, not a comma"
	case bare == right && strings.IndexAny(right, `"'[{`) != 0:
		return "text must stand in double quotes"
	}
	return `write one key = value on a line, text in double quotes, decimals with a point`
}

// decode returns the document's values. Call survey first: what it passes seldom fails here.
func decode(data []byte) (map[string]any, *Fault) {
	values := map[string]any{}
	err := toml.Unmarshal(data, &values)
	if err == nil {
		return values, nil
	}
	var at *toml.DecodeError
	if !errors.As(err, &at) {
		return nil, &Fault{Problem: "can't be read: " + err.Error()}
	}
	line, _ := at.Position()
	return nil, &Fault{Line: line, Key: strings.Join(at.Key(), "."),
		Problem: "can't be read: it contradicts a line above, or its value is no number, date or text that TOML knows; " +
			"write each key and table once, whole numbers of at most 18 digits"}
}
