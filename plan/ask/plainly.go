package ask

import (
	"errors"
	"fmt"
	"reflect"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// plainly turns the decoder's errors into words about the request.
func plainly(err error) string {
	var meaning *json.SemanticError
	if errors.As(err, &meaning) {
		return plainMeaning(meaning)
	}
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		return plainSyntax(syntax)
	}
	return err.Error()
}

// plainMeaning is for JSON in order that is no request of ours.
func plainMeaning(err *json.SemanticError) string {
	field := fieldAt(err.JSONPointer)
	if errors.Is(err, json.ErrUnknownName) {
		name := err.JSONPointer.LastToken()
		if right := writtenAs(err.GoType, name); right != "" {
			return fmt.Sprintf("field %q is written %q", name, right)
		}
		return fmt.Sprintf("field %q is not known here; leave it out or see the list of fields in the README", name)
	}
	given, wanted := plainKind(err.JSONKind), plainType(err.GoType)
	if err.JSONKind == '0' && wanted == aNumber {
		given, wanted = "a number", wanted+" that fits"
		if len(err.JSONValue) > 0 {
			given = string(err.JSONValue)
		}
	}
	if field == "" {
		return fmt.Sprintf("it is %s; give %s", given, wanted)
	}
	return fmt.Sprintf("field %q holds %s; give %s", field, given, wanted)
}

// plainSyntax is for what is no JSON.
func plainSyntax(err *jsontext.SyntacticError) string {
	if errors.Is(err, jsontext.ErrDuplicateName) {
		return fmt.Sprintf("field %q is given twice; keep one of the two", fieldAt(err.JSONPointer))
	}
	if err.Err == nil {
		return fmt.Sprintf("it breaks off or goes wrong at byte %d", err.ByteOffset+1)
	}
	return fmt.Sprintf("at byte %d: %s", err.ByteOffset+1, strings.TrimPrefix(err.Err.Error(), "jsontext: "))
}

// fieldAt returns "site.lat_deg" for /site/lat_deg, "stars[0][1]" for /stars/0/1, "" for the whole.
func fieldAt(pointer jsontext.Pointer) string {
	var name strings.Builder
	for token := range pointer.Tokens() {
		switch {
		case token != "" && strings.Trim(token, "0123456789") == "":
			name.WriteString("[" + token + "]")
		case name.Len() > 0:
			name.WriteString("." + token)
		default:
			name.WriteString(token)
		}
	}
	return name.String()
}

// writtenAs returns the field of an object that a name would be if case did not matter, "" if none.
func writtenAs(object reflect.Type, name string) string {
	if object == nil || object.Kind() != reflect.Struct {
		return ""
	}
	for _, field := range reflect.VisibleFields(object) {
		known, _, _ := strings.Cut(field.Tag.Get("json"), ",")
		if known != "" && strings.EqualFold(known, name) {
			return known
		}
	}
	return ""
}

func plainKind(kind jsontext.Kind) string {
	switch kind {
	case 'n':
		return "null"
	case 't', 'f':
		return "true or false"
	case '"':
		return "a string"
	case '0':
		return aNumber
	case '{', '}':
		return "an object"
	case '[', ']':
		return "an array"
	}
	return "something else"
}

const aNumber = "a number"

func plainType(t reflect.Type) string {
	for t != nil && t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t == nil {
		return "another value"
	}
	switch t.Kind() {
	case reflect.Float64, reflect.Int:
		return aNumber
	case reflect.String:
		return "text in quotes"
	case reflect.Slice, reflect.Array:
		return "a list in [ ]"
	case reflect.Struct, reflect.Map:
		return "an object in { }"
	}
	return t.String()
}
