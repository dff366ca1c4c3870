package debrief

import (
	"encoding/json"
	"io"
)

// WriteJSON writes the report as indented JSON with a newline at its end.
func WriteJSON(w io.Writer, r Report) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(r)
}
