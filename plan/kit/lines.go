package kit

import (
	"bytes"
	"fmt"
	"sort"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// lines tells on which line of a file each key and table stands. Paths are those of Fault.Key: items of
// a list counted from 1. A nil lines knows no line.
type lines map[string]int

// of returns the line of path, or of the nearest table around it that is in the file, or 0.
func (ls lines) of(path string) int {
	for path != "" {
		if line, found := ls[path]; found {
			return line
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return 0
}

// surveyor walks a document's expressions, noting lines and keys that are written twice. It stands on
// the parser that the decoder itself uses, whose nodes carry their place in the bytes.
type surveyor struct {
	parser  unstable.Parser
	data    []byte
	starts  []int          // where each line begins
	deep    bool           // something was nested too deep or too large, and was told
	inside  map[string]int // keys of each table
	lines   lines
	items   map[string]int  // items so far of each list of tables
	written map[string]bool // keys and [tables] that were written in full
	values  map[string]extent
	faults  Faults
}

// extent is where the value of a key stands in the document, in bytes.
type extent struct{ from, to int }

// survey returns the lines of data and a fault for each key that is written twice. The error is the
// parser's, at the first byte that is no TOML, with the line of it.
func survey(data []byte) (lines, Faults, *unreadable) {
	s, unreadable := surveyed(data)
	if unreadable != nil {
		return nil, nil, unreadable
	}
	return s.lines, s.faults, nil
}

// surveyed is survey with all that was noted.
func surveyed(data []byte) (surveyor, *unreadable) {
	s := surveyor{data: data, starts: lineStarts(data), lines: lines{}, items: map[string]int{}, inside: map[string]int{}, written: map[string]bool{}, values: map[string]extent{}}
	s.parser.Reset(data)
	table := ""
	for !s.deep && s.parser.NextExpression() {
		switch e := s.parser.Expression(); e.Kind {
		case unstable.Table, unstable.ArrayTable:
			table = s.header(e)
		case unstable.KeyValue:
			s.keyValue(table, e)
		}
	}
	if err := s.parser.Error(); err != nil {
		return s, &unreadable{s.lineOfError(err)}
	}
	return s, nil
}

// header notes a [table] or [[list]] and returns its path.
func (s *surveyor) header(e *unstable.Node) string {
	path, keys, list := "", e.Key(), e.Kind == unstable.ArrayTable
	for depth := 1; keys.Next(); depth++ {
		if s.tooDeep(depth, path, s.line(keys.Node())) {
			break
		}
		path = joined(path, string(keys.Node().Data))
		line := s.line(keys.Node())
		s.note(path, line)
		switch {
		case keys.IsLast() && list:
			s.items[path]++
			path = item(path, s.items[path])
			s.note(path, line)
		case keys.IsLast():
			s.writtenIn(path, line)
		case s.items[path] > 0:
			path = item(path, s.items[path])
		}
	}
	return path
}

func (s *surveyor) keyValue(table string, e *unstable.Node) {
	path, line, keys := table, 0, e.Key()
	for depth := 1; keys.Next(); depth++ {
		if s.tooDeep(depth, path, line) {
			return
		}
		path, line = joined(path, string(keys.Node().Data)), s.line(keys.Node())
		s.note(path, line)
	}
	s.writtenIn(path, line)
	if raw := e.Value().Raw; raw.Length > 0 { // of a single value; tables and lists have none
		s.values[path] = extent{int(raw.Offset), int(raw.Offset + raw.Length)}
	}
	s.value(path, line, e.Value())
}

// deepest is how deep keys and values may be nested: five times what a kit needs. Below it the names of what is
// inside what grow with the square of the depth.
const deepest = 16

func (s *surveyor) tooDeep(depth int, path string, line int) bool {
	if depth > deepest && !s.deep {
		s.deep = true
		s.faults = append(s.faults, Fault{Line: line, Problem: fmt.Sprintf("has something nested more than %d deep, in %s; a kit has tables and keys in them", deepest, clipped(path))})
	}
	return s.deep
}

// clipped shortens what somebody else wrote to what a message can hold.
func clipped(text string) string {
	const longest = 60
	if runes := []rune(text); len(runes) > longest {
		return string(runes[:longest]) + "…"
	}
	return text
}

// value notes what stands inside an inline table or list.
func (s *surveyor) value(path string, line int, v *unstable.Node) {
	children := v.Children()
	if s.tooDeep(strings.Count(path, "[")+strings.Count(path, "."), path, line) {
		return
	}
	switch v.Kind {
	case unstable.InlineTable:
		for children.Next() {
			if children.Node().Kind == unstable.KeyValue {
				s.keyValue(path, children.Node())
			}
		}
	case unstable.Array:
		for n := 0; children.Next(); {
			if children.Node().Kind == unstable.Comment {
				continue
			}
			n++
			s.note(item(path, n), line)
			s.value(item(path, n), line, children.Node())
		}
	}
}

func (s *surveyor) note(path string, line int) {
	if _, known := s.lines[path]; known {
		return
	}
	s.lines[path] = line
	if strings.HasSuffix(path, "]") {
		return
	}
	table := path[:max(strings.LastIndexByte(path, '.'), 0)]
	if s.inside[table]++; s.inside[table] > mostInside && !s.deep {
		s.deep = true
		s.faults = append(s.faults, Fault{Line: line, Problem: fmt.Sprintf("is in a table of more than %d keys; no table of a kit has so many", mostInside)})
	}
}

// mostInside is how many keys a table may have, twenty times what one of a kit has: the decoder looks through all of
// them for each.
const mostInside = 1000

func (s *surveyor) writtenIn(path string, line int) {
	if s.written[path] {
		s.faults = append(s.faults, Fault{Line: line, Key: path,
			Problem: fmt.Sprintf("is given a second time (first in line %d); keep one of the two", s.lines[path])})
	}
	s.written[path] = true
}

func (s *surveyor) line(n *unstable.Node) int { return s.lineAt(int(n.Raw.Offset)) }

// lineAt returns the line of the byte at offset.
func (s *surveyor) lineAt(offset int) int {
	return sort.Search(len(s.starts), func(i int) bool { return s.starts[i] > offset })
}

// lineStarts returns the offsets at which lines begin: the first at 0.
func lineStarts(data []byte) []int {
	starts := []int{0}
	for at := 0; ; {
		n := bytes.IndexByte(data[at:], '\n')
		if n < 0 {
			return starts
		}
		at += n + 1
		starts = append(starts, at)
	}
}

func joined(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func item(path string, n int) string { return fmt.Sprintf("%s[%d]", path, n) }
