// Package ask answers questions about sky and plan that come as JSON objects, for scripts and for anyone
// who wants to hold the numbers against a reference of their own. One question in, one answer out; what
// it computes with is package plan and package sky, and nothing of its own.
//
// Angles are in degrees unless a name says otherwise, times UTC as RFC 3339, longitude east +, azimuth
// from north through east. No horizon profile applies.
package ask

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"duskhand/sky"
)

// question is one kind of request: decoded strictly, then answered.
type question interface {
	answer(frames *sky.Frames) (any, error)
	head() *header
}

// kinds lists what can be asked, each with a maker of its empty request.
var kinds = sync.OnceValue(func() map[string]func() question {
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
})

// Kinds returns what can be asked, the caller's own kinds among it, sorted.
func (a *Answerer) Kinds() []string {
	names := slices.AppendSeq(slices.Collect(maps.Keys(kinds())), maps.Keys(a.others))
	slices.Sort(names)
	return names
}

// Question is a kind of request that the caller answers. Its type has a Header embedded, and is decoded as strictly
// as the others.
type Question interface {
	Answer() (any, error)
	head() *header
}

// Others are the caller's kinds of request by name, each with a maker of its empty request.
type Others map[string]func() Question

// Header is what every request carries.
type Header = header

type header struct {
	Ask string         `json:"ask"`
	ID  jsontext.Value `json:"id,omitzero"`
}

func (h *header) head() *header { return h }

// Answerer answers requests one after the other, and keeps what the next may need again: the sky's orientation
// over a site. Its answers do not depend on what was asked before. It is not for several goroutines at once.
type Answerer struct {
	frames sky.Frames
	others Others
}

// New returns an Answerer that has nothing kept yet, and answers the caller's own kinds of request besides.
func New(others Others) *Answerer { return &Answerer{others: others} }

// empty returns the empty request of a kind, nil for one that is not known.
func (a *Answerer) empty(kind string) question {
	if make, ours := kinds()[kind]; ours {
		return make()
	}
	if make, theirs := a.others[kind]; theirs {
		return &other{make()}
	}
	return nil
}

// other is a caller's request as one of ours.
type other struct{ Question }

func (o *other) answer(*sky.Frames) (any, error) { return o.Question.Answer() }

// UnmarshalJSONFrom reads the caller's request itself, as strictly as ours.
func (o *other) UnmarshalJSONFrom(in *jsontext.Decoder) error {
	return json.UnmarshalDecode(in, o.Question)
}

// Answer answers one request line with one line of JSON, without line end. The request's id comes back
// unchanged. ok is false when the answer is an error, which says what is wrong and what would be right.
func (a *Answerer) Answer(line []byte) (answer []byte, ok bool) {
	result, id, err := a.reply(line)
	if err != nil {
		return withID(idOf(line), failure{err.Error()}), false
	}
	return withID(id, result), true
}

// idOf returns the id of a request that is not in order otherwise, as far as it can be read.
func idOf(line []byte) jsontext.Value {
	var only struct {
		ID jsontext.Value `json:"id"`
	}
	_ = json.Unmarshal(line, &only, jsontext.AllowDuplicateNames(true)) // the fault is told of already
	return only.ID
}

type failure struct {
	Error string `json:"error"`
}

// reply answers what was asked, or says what is wrong with it.
func (a *Answerer) reply(line []byte) (result any, id jsontext.Value, err error) {
	kind := firstAsked(line)
	q := a.empty(kind)
	if q == nil {
		var head header
		if err := json.Unmarshal(line, &head); err != nil {
			return nil, nil, notAnObject(err)
		}
		kind = head.Ask
		if q = a.empty(kind); q == nil {
			return nil, nil, a.unknownKind(kind)
		}
	}
	if err := json.Unmarshal(line, q, json.RejectUnknownMembers(true)); err != nil {
		return nil, nil, fmt.Errorf("%s: %s", kind, plainly(err))
	}
	if result, err = q.answer(&a.frames); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", kind, err)
	}
	return result, q.head().ID, nil
}

// firstAsked returns the kind of a request that begins with it, as nearly all do, so that the line need be read
// only once; "" for any other. That the rest of the line is in order is left to the decoder.
func firstAsked(line []byte) string {
	rest, ok := bytes.CutPrefix(bytes.TrimSpace(line), []byte(`{"ask":`))
	if !ok {
		return ""
	}
	rest, ok = bytes.CutPrefix(bytes.TrimLeft(rest, " \t"), []byte(`"`))
	if !ok {
		return ""
	}
	kind, _, _ := bytes.Cut(rest, []byte(`"`))
	return string(kind)
}

func notAnObject(err error) error {
	return fmt.Errorf("this line is no JSON object with text in \"ask\" (%s); write one object a line, as {\"ask\":\"object\",\"name\":\"M 42\"}", plainly(err))
}

func (a *Answerer) unknownKind(kind string) error {
	if kind == "" {
		return fmt.Errorf("\"ask\" is missing; give one of %s", strings.Join(a.Kinds(), ", "))
	}
	return fmt.Errorf("\"ask\" is %q, which is not known; give one of %s", kind, strings.Join(a.Kinds(), ", "))
}

// withID writes result as one object with the id in front. No answer of ours fails to be written as JSON:
// NaN and infinities are refused on the way in and arise nowhere after.
func withID(id jsontext.Value, result any) []byte {
	body, err := json.Marshal(result)
	if err != nil {
		body = []byte(`{"error":"the answer is not a number: please report this line"}`)
	}
	if id == nil {
		return body
	}
	out := append(make([]byte, 0, len(body)+len(id)+8), `{"id":`...)
	out = append(out, id...)
	if len(body) > 2 {
		out = append(out, ',')
	}
	return append(out, body[1:]...)
}
