package scenarios

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// parseYAML returns the only document's root.
func parseYAML(source []byte) (*yaml.Node, error) {
	doc, err := parseDocument(source)
	if err != nil {
		return nil, err
	}
	return doc.Content[0], nil
}

// parseDocument returns the only document, comments and all.
func parseDocument(source []byte) (doc *yaml.Node, err error) {
	// The parser is written to panic and recover within; should one get past
	// it, a bad file must still not end the program.
	defer func() {
		if recover() != nil {
			err = errors.New("the parser gave up on it")
		}
	}()
	d := yaml.NewDecoder(bytes.NewReader(source))
	var more yaml.Node
	doc = new(yaml.Node)
	if err := d.Decode(doc); errors.Is(err, io.EOF) {
		return nil, errors.New("nothing in it")
	} else if err != nil {
		return nil, err
	}
	if err := d.Decode(&more); err == nil {
		return nil, fmt.Errorf("line %d: a second document begins", more.Line)
	} else if !errors.Is(err, io.EOF) {
		return nil, err
	}
	return doc, nil
}

// syntaxFault reads the line out of the parser's message, its only place.
func syntaxFault(err error) Fault {
	message := strings.TrimPrefix(err.Error(), "yaml: ")
	f := Fault{Problem: "is not an exercise: " + message}
	if rest, ok := strings.CutPrefix(message, "line "); ok {
		if n, after, ok := strings.Cut(rest, ": "); ok {
			if line, err := strconv.Atoi(n); err == nil {
				f.Line, f.Problem = line, "is not an exercise: "+after
			}
		}
	}
	// One fault, one line; the parser may quote the file at any length.
	f.Problem = strings.Join(strings.Fields(f.Problem), " ")
	if most := 200; len(f.Problem) > most {
		f.Problem = strings.ToValidUTF8(f.Problem[:most], "") + "..."
	}
	return f
}
