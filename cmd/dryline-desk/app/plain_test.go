package app

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"dryline/scenarios"
)

// foreign are words of libraries and of Go that no trainee should have to read.
var foreign = []string{"unmarshal", "Go value", "Go struct", "json: ", "yaml: ", "strconv", "invalid character", "interface", "float64", "uint", "reflect", "%!", "<nil>"}

// plainly checks what a trainee is told: one line, in words.
func plainly(t *testing.T, what, says string) {
	t.Helper()
	for _, word := range foreign {
		if strings.Contains(says, word) {
			t.Errorf("%s: %q has %q in it", what, says, word)
		}
	}
	if strings.TrimSpace(says) == "" || strings.Contains(strings.TrimSpace(says), "\n") {
		t.Errorf("%s: %q is no line", what, says)
	}
}

// kinds are a value of every kind that JSON has, and what is none.
var kinds = []string{`7`, `-1.5`, `1e400`, `"x"`, `true`, `null`, `[1]`, `{"a":1}`, `{`, `]`, ``}

// Whatever stands in a settings file, a session log or the fields of free practice,
// what is wrong with it is said in a line of plain words.
func TestFaultsAreSaidPlainly(t *testing.T) {
	var settings map[string]json.RawMessage
	if err := json.Unmarshal(DefaultSettings().Encode(), &settings); err != nil {
		t.Fatal(err)
	}
	texts := append([]string{"", "[]", "7", "not at all", `{"theme":"day"`, `{"thme":1}`}, kinds...)
	for key := range settings {
		for _, v := range kinds {
			texts = append(texts, fmt.Sprintf("{%q: %s}", key, v))
		}
	}
	for _, text := range texts {
		if _, err := ParseSettings([]byte(text)); err != nil {
			plainly(t, "settings "+text, sentence(err.Error()))
		}
		g := NewGame(&memory{settings: []byte(text)}, false)
		if g.Notice != "" {
			plainly(t, "settings "+text, g.Notice)
		}
	}

	head := `{"dryline_session":1,"exercise":"x","sha256":"00","seed":3,"source":"title: x\n"}` + "\n"
	logs := append([]string{"", "7\n", "[]\n", "Dear harbour master,\n", head, head + "7\n"}, kinds...)
	replace := func(line, key string) {
		var members map[string]json.RawMessage
		if err := json.Unmarshal([]byte(line), &members); err != nil {
			t.Fatal(err)
		}
		for _, v := range kinds {
			text := strings.Replace(line, fmt.Sprintf("%q:%s", key, members[key]), fmt.Sprintf("%q:%s", key, v), 1)
			if !strings.HasPrefix(line, `{"dryline`) {
				text = head + text
			}
			logs = append(logs, text+"\n", text+"\n"+`{"end":9,"reason":"finished"}`+"\n")
		}
	}
	for _, key := range []string{"dryline_session", "exercise", "sha256", "seed", "source"} {
		replace(strings.TrimSpace(head), key)
	}
	const command = `{"tick":0,"do":"mark","line":"A","reversed":true,"x_m":1,"value":2,"number":3,"text":"x","ping":4}`
	for _, key := range []string{"tick", "do", "line", "reversed", "x_m", "value", "number", "text", "ping"} {
		replace(command, key)
	}
	for _, line := range []string{`{"end":9,"reason":"finished"}`, `{"reached":9}`} {
		for _, key := range []string{"end", "reason", "reached"} {
			if strings.Contains(line, key) {
				replace(line, key)
			}
		}
	}
	for _, log := range logs {
		g := NewGame(newShelf(), false)
		resumeFrom(g, "", "kept.jsonl", []byte(log), nil)
		if g.next != nil {
			t.Errorf("resumed: %q", log)
		}
		plainly(t, "session "+log, g.Notice)
		for _, says := range summarise([]byte(log), nil).says {
			plainly(t, "session "+log, says)
		}
	}

	ex, err := scenarios.Find("sloping-bank")
	if err != nil {
		t.Fatal(err)
	}
	refused := 0
	for _, v := range append([]string{"&a", "*a", "!!binary x", "- 3", "~", ": ", "a: b", "#", "'", "1e999", ".nan", "0x1g", "\t", "!!int x", "|", "%", "@", "99999999999999999999999"}, kinds...) {
		for i := range 3 {
			p, err := NewPractice(ex)
			if err != nil {
				t.Fatal(err)
			}
			p.now[[]int{0, len(p.fields) / 2, len(p.fields) - 1}[i]] = v
			g := NewGame(newShelf(), false)
			p.begin(g)
			for _, says := range p.faults {
				refused++
				plainly(t, "practice "+v, says)
			}
		}
	}
	if refused < 30 {
		t.Errorf("only %d values were refused", refused)
	}
}
