package order

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
)

// JSONFault says what is wrong with a text of JSON as people would say it: the
// library speaks of Go and its types. Other errors stay as they are.
func JSONFault(err error) error {
	if e, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		says := fmt.Sprintf("%s stands where %s belongs", jsonKind(e.Value), goKind(e.Type))
		if e.Field != "" {
			says = e.Field + ": " + says
		}
		return errors.New(says)
	}
	if e, ok := errors.AsType[*json.SyntaxError](err); ok {
		return fmt.Errorf("it is no JSON from its character %d on", max(e.Offset, 1))
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("it breaks off before its end")
	}
	if err != nil {
		if key, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
			return fmt.Errorf("%s is no key that belongs there", key)
		}
	}
	return err
}

// jsonKind returns the word for a value that the library found.
func jsonKind(value string) string {
	kind, number, _ := strings.Cut(value, " ")
	if number != "" {
		return number
	}
	switch kind {
	case "number":
		return "a number"
	case "string":
		return "a text"
	case "array":
		return "a list"
	case "object":
		return "a set of keys"
	}
	return "true or false"
}

// goKind returns the word for how a value of a type is written.
func goKind(t reflect.Type) string {
	if t == nil {
		return "something else"
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch k := t.Kind(); {
	case k == reflect.String:
		return "a text"
	case k == reflect.Bool:
		return "true or false"
	case k >= reflect.Int && k <= reflect.Int64:
		return "a whole number"
	case k >= reflect.Uint && k <= reflect.Uintptr:
		return "a whole number from 0 up"
	case k == reflect.Float32 || k == reflect.Float64:
		return "a number"
	case k == reflect.Slice || k == reflect.Array:
		return "a list"
	}
	return "a set of keys"
}
