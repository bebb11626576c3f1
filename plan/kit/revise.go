package kit

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Revise returns a kit file with other answers to questions of a new kit, by their keys, as a person typed them; an
// empty answer takes a key that has a default out of use, as a comment. Everything else stays as it stands: comments,
// order, other keys. A key that the file does not give takes the place of the comment that shows it, if there is one. A
// filter that is wanted no more becomes a comment.
//
// Error: Faults, if an answer won't do or the kit that comes out of it is none.
func Revise(data []byte, file string, answers map[string]string, checks ...func(KeyTable) []Fault) ([]byte, error) {
	r := reviser{data: slices.Clone(data), file: file}
	plain, _, faults := apart(answers)
	for _, key := range slices.Sorted(maps.Keys(plain)) {
		if fault := checkAnswer(key, plain[key]); fault != nil && plain[key] != "" && !strings.HasPrefix(key, "subs.filter.") {
			faults = append(faults, *fault)
		}
	}
	if len(faults) > 0 {
		return nil, faults
	}
	for _, f := range fields() {
		answer, changed := plain[f.key]
		if changed && !strings.HasPrefix(f.key, "subs.filter.") {
			r.answer(f, itemPath(f), answer)
		}
	}
	r.place(answers[PlaceKey])
	if text := answers[FiltersKey]; text != "" {
		wanted, _ := readFilterList(text) // apart has read it
		r.filters(wanted)
	}
	if r.fault != nil {
		return nil, Faults{*r.fault}
	}
	if _, err := Read(r.data, file, checks...); err != nil {
		return nil, err
	}
	return r.data, nil
}

// itemPath is where a field stands in a file: of a list in its first item.
func itemPath(f field) string {
	table, name := f.split()
	if t, _ := tableOf(table); t.list {
		table = item(table, 1)
	}
	return joined(table, name)
}

// reviser changes the text of a kit file, one key after the other; the first thing that it can't do stops it.
type reviser struct {
	data  []byte
	file  string
	fault *Fault
}

func (r *reviser) failed(path, problem string) {
	if r.fault == nil {
		r.fault = &Fault{File: r.file, Line: r.survey().lines.of(path), Key: path, Problem: problem}
	}
}

func (r *reviser) survey() surveyor {
	s, _ := surveyed(r.data)
	return s
}

// place takes the height away that a new place does not have.
func (r *reviser) place(text string) {
	f, _ := fieldOf("site.elevation_m")
	if text == "" {
		return
	}
	plain, _, _ := apart(map[string]string{PlaceKey: text})
	if _, given := r.survey().values[f.key]; given && plain[f.key] == "" {
		r.answer(f, f.key, "")
	}
}

// answer gives a key another answer, "" for none.
func (r *reviser) answer(f field, path, answer string) {
	s := r.survey()
	at, given := s.values[path]
	switch {
	case r.fault != nil:
	case f.key == "target.name" && s.lines["target[1].ra"] > 0:
		r.failed("target[1].ra", "is the place of the target as it was; change name and place together, in the file")
	case answer == "" && given:
		r.comment(path, s.lineAt(at.from))
	case answer == "":
	case given:
		r.data = slices.Replace(r.data, at.from, at.to, []byte(literal(f.typed(answer)))...)
	default:
		_, name := f.split()
		r.insert(strings.TrimSuffix(path, "."+name), name, literal(f.typed(answer)))
	}
}

// comment makes a comment of the line of a key.
func (r *reviser) comment(path string, line int) {
	lines := r.split()
	if name := path[strings.LastIndexByte(path, '.')+1:]; !strings.HasPrefix(strings.TrimSpace(lines[line-1]), name) {
		r.failed(path, "stands in one line with others; take it out there, in the file")
		return
	}
	lines[line-1] = "# " + lines[line-1]
	r.join(lines)
}

// insert writes a key into a table that does not give it: in place of the comment that shows it, below the table's
// header, or with a table of its own at the end.
func (r *reviser) insert(table, name, value string) {
	written := name + " = " + value
	lines, header := r.split(), r.survey().lines[table]
	switch {
	case header == 0:
		r.data = append([]byte(strings.TrimRight(string(r.data), "\n")), []byte("\n\n["+table+"]\n"+written+"\n")...)
		return
	case !isHeader(lines[header-1]):
		r.failed(table, "is written in one line; give it "+written+" there, in the file")
		return
	}
	for i := header; i < len(lines) && !isHeader(lines[i]); i++ {
		shown, isComment := strings.CutPrefix(strings.TrimSpace(lines[i]), "#")
		if key, _, assigned := strings.Cut(shown, "="); isComment && assigned && strings.TrimSpace(key) == name {
			lines[i] = written
			r.join(lines)
			return
		}
	}
	r.join(slices.Insert(lines, header, written))
}

func isHeader(line string) bool { return strings.HasPrefix(strings.TrimSpace(line), "[") }

func (r *reviser) split() []string     { return strings.Split(string(r.data), "\n") }
func (r *reviser) join(lines []string) { r.data = []byte(strings.Join(lines, "\n")) }

// filters gives the file the filters that are wanted, in their order: one that is there keeps all that stands in it.
func (r *reviser) filters(wanted []map[string]string) {
	r.arrange(r.written(), wanted)
	for i, now := range r.written() {
		for _, name := range []string{"exposure_s", "count"} {
			f, _ := fieldOf("subs.filter." + name)
			if r.fault == nil && literal(f.typed(now[name])) != literal(f.typed(wanted[i][name])) {
				r.answer(f, joined(item("subs.filter", i+1), name), wanted[i][name])
			}
		}
	}
}

// written are the filters that the file has.
func (r *reviser) written() []map[string]string {
	document, _ := ReadDocument(r.data, r.file)
	return filtersIn(document.Values)
}

// arrange puts the filters' tables into the wanted order: new ones behind the last, and those that are wanted no more
// as comments behind these.
func (r *reviser) arrange(old, wanted []map[string]string) {
	if slices.EqualFunc(old, wanted, func(a, b map[string]string) bool { return a["name"] == b["name"] }) {
		return
	}
	from, to := r.blocks(len(old))
	if r.fault != nil {
		return
	}
	lines, used := r.split(), make([]bool, len(old))
	var texts []string
	for _, filter := range wanted {
		i := slices.IndexFunc(old, func(o map[string]string) bool { return o["name"] == filter["name"] })
		if i < 0 || used[i] {
			texts = append(texts, newFilter(filter))
			continue
		}
		used[i] = true
		texts = append(texts, strings.Join(lines[from[i]:to[i]], "\n"))
	}
	for i := range old {
		if !used[i] {
			texts = append(texts, commented(lines[from[i]:to[i]]))
		}
	}
	r.fillBlocks(lines, from, to, texts)
}

// fillBlocks puts the texts where the filters stood, what is over behind the last.
func (r *reviser) fillBlocks(lines []string, from, to []int, texts []string) {
	for i := len(from) - 1; i >= 0; i-- {
		text := ""
		switch {
		case i == len(from)-1:
			text = strings.Join(texts[min(i, len(texts)):], "\n\n")
		default:
			text = texts[i]
		}
		lines = slices.Replace(lines, from[i], to[i], strings.Split(text, "\n")...)
	}
	r.join(lines)
}

// blocks returns where each filter's table begins, by the index of its line, and the line after its last key.
func (r *reviser) blocks(n int) (from, to []int) {
	s, lines := r.survey(), r.split()
	for i := range n {
		path := item("subs.filter", i+1)
		first, last := s.lines[path], 0
		for key, at := range s.values {
			if strings.HasPrefix(key, path+".") {
				last = max(last, s.lineAt(at.to-1))
			}
		}
		if first == 0 || !isHeader(lines[first-1]) || strings.Contains(lines[first-1], "=") {
			r.failed("subs.filter", "is written in one line; change the filters there, in the file")
			return nil, nil
		}
		from, to = append(from, first-1), append(to, max(first, last))
	}
	return from, to
}

func newFilter(filter map[string]string) string {
	text := "[[subs.filter]]"
	for _, name := range []string{"name", "exposure_s", "count"} {
		f, _ := fieldOf("subs.filter." + name)
		text += fmt.Sprintf("\n%s = %s", name, literal(f.typed(filter[name])))
	}
	return text
}

func commented(lines []string) string {
	out := make([]string, len(lines))
	for i, line := range lines {
		if out[i] = line; line != "" && !strings.HasPrefix(line, "#") {
			out[i] = "# " + line
		}
	}
	return strings.Join(out, "\n")
}
