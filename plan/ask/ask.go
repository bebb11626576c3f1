// Package ask answers questions about sky and plan that come as JSON objects, for scripts and for anyone
// who wants to hold the numbers against a reference of their own. One question in, one answer out; what
// it computes with is package plan and package sky, and nothing of its own.
//
// Angles are in degrees unless a name says otherwise, times UTC as RFC 3339, longitude east +, azimuth
// from north through east. No horizon profile applies.
package ask

import (
	"bytes"
	"encoding/json"
	"fmt"
	"sort"
	"strings"
)

// question is one kind of request: decoded strictly, then answered.
type question interface{ answer() (any, error) }

// kinds lists what can be asked, each with a maker of its empty request.
func kinds() map[string]func() question {
	return map[string]func() question{
		"object":      func() question { return &objectQuestion{} },
		"place":       func() question { return &placeQuestion{} },
		"refraction":  func() question { return &refractionQuestion{} },
		"rotation":    func() question { return &rotationQuestion{} },
		"run":         func() question { return &runQuestion{} },
		"twilight":    func() question { return &twilightQuestion{} },
		"moon":        func() question { return &moonQuestion{} },
		"moon_events": func() question { return &moonEventsQuestion{} },
		"axis_fit":    func() question { return &axisFitQuestion{} },
		"pair":        func() question { return &pairQuestion{} },
		"overlap":     func() question { return &overlapQuestion{} },
	}
}

// Kinds returns what can be asked, sorted.
func Kinds() []string { return kindsWith(nil) }

func kindsWith(others Others) (names []string) {
	for name := range kinds() {
		names = append(names, name)
	}
	for name := range others {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

// Question is a kind of request that the caller answers. Its type has a Header embedded, and is decoded as strictly
// as the others.
type Question interface{ Answer() (any, error) }

// Others are the caller's kinds of request by name, each with a maker of its empty request.
type Others map[string]func() Question

// Header is what every request carries.
type Header = header

type header struct {
	Ask string          `json:"ask"`
	ID  json.RawMessage `json:"id,omitempty"`
}

// Answer answers one request line with one line of JSON, without line end. The request's id comes back
// unchanged. ok is false when the answer is an error, which says what is wrong and what would be right.
func Answer(line []byte) (answer []byte, ok bool) { return AnswerWith(line, nil) }

// AnswerWith is Answer for a caller that has other kinds of request besides.
func AnswerWith(line []byte, others Others) (answer []byte, ok bool) {
	var head header
	result, err := reply(line, &head, others)
	if err != nil {
		result = map[string]string{"error": err.Error()}
	}
	return withID(head.ID, result), err == nil
}

func reply(line []byte, head *header, others Others) (any, error) {
	if err := json.Unmarshal(line, head); err != nil {
		return nil, fmt.Errorf("this line is no JSON object with text in \"ask\" (%s); write one object a line, as {\"ask\":\"object\",\"name\":\"M 42\"}", plainly(err))
	}
	if head.Ask == "" {
		return nil, fmt.Errorf("\"ask\" is missing; give one of %s", strings.Join(kindsWith(others), ", "))
	}
	var q any
	var answer func() (any, error)
	if make, known := kinds()[head.Ask]; known {
		ours := make()
		q, answer = ours, ours.answer
	} else if make, known := others[head.Ask]; known {
		theirs := make()
		q, answer = theirs, theirs.Answer
	} else {
		return nil, fmt.Errorf("\"ask\" is %q, which is not known; give one of %s", head.Ask, strings.Join(kindsWith(others), ", "))
	}
	decoder := json.NewDecoder(bytes.NewReader(line))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(q); err != nil {
		return nil, fmt.Errorf("%s: %s", head.Ask, plainly(err))
	}
	result, err := answer()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", head.Ask, err)
	}
	return result, nil
}

// plainly turns the decoder's errors into words about the request.
func plainly(err error) string {
	text := strings.TrimPrefix(err.Error(), "json: ")
	if typed, ok := err.(*json.UnmarshalTypeError); ok {
		given, wanted := a(typed.Value), plainType(typed.Type.Kind().String())
		if number, found := strings.CutPrefix(typed.Value, "number "); found {
			given, wanted = number, wanted+" that fits"
		}
		if typed.Field == "" {
			return fmt.Sprintf("it is %s; give %s", given, wanted)
		}
		return fmt.Sprintf("field %q holds %s; give %s", withoutEmbedded(typed.Field), given, wanted)
	}
	if field, ok := strings.CutPrefix(text, "unknown field "); ok {
		return fmt.Sprintf("field %s is not known here; leave it out or see the list of fields in the README", field)
	}
	return text
}

// withoutEmbedded drops from a field's path the types that our questions are built from, which the person
// who wrote the request has never seen.
func withoutEmbedded(path string) string {
	for _, inside := range []string{"dayQuestion.", "sight.", "header.", "Header."} {
		path = strings.TrimPrefix(path, inside)
	}
	return path
}

func a(value string) string {
	if strings.ContainsRune("aeiou", rune(value[0])) {
		return "an " + value
	}
	return "a " + value
}

func plainType(kind string) string {
	switch kind {
	case "float64", "int":
		return "a number"
	case "string":
		return "text in quotes"
	case "slice", "array":
		return "a list in [ ]"
	case "struct", "map", "ptr":
		return "an object in { }"
	}
	return kind
}

// withID writes result as one object with the id in front. No answer of ours fails to be written as JSON:
// NaN and infinities are refused on the way in and arise nowhere after.
func withID(id json.RawMessage, result any) []byte {
	body, err := json.Marshal(result)
	if err != nil {
		body = []byte(`{"error":"the answer is not a number: please report this line"}`)
	}
	if id == nil {
		return body
	}
	var out bytes.Buffer
	out.WriteString(`{"id":`)
	out.Write(bytes.TrimSpace(id))
	if len(body) > 2 {
		out.WriteByte(',')
	}
	out.Write(body[1:])
	return out.Bytes()
}
