package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// What a knot is, is said in seabed/units and nowhere else: ten definitions of it once
// were. Tests may work it out by themselves.
func TestTheKnotStandsInOnePlace(t *testing.T) {
	found := map[string]int{}
	eachFolder(t, func(folder string, files []string) {
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && isKnot(lit.Value) {
					found[filepath.ToSlash(folder)]++
				}
				return true
			})
		}
	})
	for folder, n := range found {
		if !strings.HasSuffix(folder, "seabed/units") {
			t.Errorf("%s spells a knot out (%d times): use seabed/units", folder, n)
		}
	}
	if found[root+"/seabed/units"] == 0 {
		t.Error("seabed/units does not say what a knot is: the check looks at the wrong thing")
	}
}

// isKnot reports whether a literal is a nautical mile in metres, a knot in m/s or its
// inverse.
func isKnot(literal string) bool {
	literal = strings.ReplaceAll(literal, "_", "")
	return literal == "1852" || literal == "1852.0" || strings.HasPrefix(literal, "0.5144") || strings.HasPrefix(literal, "1.9438")
}
