package house

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
)

const root = "../.."

// eachFolder calls f with every folder of the module that holds Go files.
func eachFolder(t *testing.T, f func(folder string, files []string)) {
	t.Helper()
	folders := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if name := d.Name(); path != root && (strings.HasPrefix(name, ".") || name == "testdata" || name == "out") {
			return filepath.SkipDir
		}
		files, err := filepath.Glob(filepath.Join(path, "*.go"))
		if err == nil && len(files) > 0 {
			folders++
			f(path, files)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if folders < 15 {
		t.Fatalf("%d folders with Go files were found, want the whole module", folders)
	}
}

// Every package has one package comment, and it opens as Go's do.
func TestOnePackageComment(t *testing.T) {
	eachFolder(t, func(folder string, files []string) {
		comments := 0
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.PackageClauseOnly|parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			if file.Doc == nil {
				continue
			}
			comments++
			want := "Package " + file.Name.Name + " "
			if file.Name.Name == "main" {
				want = ""
			}
			if !strings.HasPrefix(file.Doc.Text(), want) {
				t.Errorf("%s: the package comment opens %.40q, want %q", name, file.Doc.Text(), want)
			}
		}
		if comments != 1 {
			t.Errorf("%s has %d package comments, want 1", folder, comments)
		}
	})
}

// Nothing in the project leans on files outside it.
func TestNothingPointsOutside(t *testing.T) {
	eachFolder(t, func(_ string, files []string) {
		for _, name := range files {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if strings.Contains(string(text), ".."+"/shared") {
				t.Errorf("%s refers to a folder outside the project", name)
			}
		}
	})
}

// A package comment names the packages inside, all of them.
func TestPackageCommentsNameWhatIsInside(t *testing.T) {
	comments, inside := map[string]string{}, map[string][]string{}
	eachFolder(t, func(folder string, files []string) {
		for _, name := range files {
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.PackageClauseOnly|parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			if file.Doc != nil && file.Name.Name != "main" {
				comments[folder] = file.Doc.Text()
			}
		}
		inside[filepath.Dir(folder)] = append(inside[filepath.Dir(folder)], filepath.Base(folder))
	})
	told := 0
	for folder, comment := range comments {
		words := strings.FieldsFunc(comment, func(c rune) bool { return !unicode.IsLetter(c) })
		for _, name := range inside[folder] {
			if told++; !slices.Contains(words, name) {
				t.Errorf("the comment of %s does not name %s, which lies inside", folder, name)
			}
		}
	}
	if told < 15 {
		t.Errorf("%d packages lie inside others, want more: the check looks at the wrong thing", told)
	}
}

// A comment that opens "X is what" says what X is good for before it says what it is: it
// stumbles, and there is always a verb that does not.
func TestNoCommentOpensIsWhat(t *testing.T) {
	opens := regexp.MustCompile(`^(Package )?\S+ (is|are) what\b`)
	read := 0
	eachFolder(t, func(folder string, files []string) {
		for _, name := range files {
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, name, nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range file.Comments {
				read++
				if text := c.Text(); opens.MatchString(text) {
					t.Errorf("%s: %.60q", set.Position(c.Pos()), text)
				}
			}
		}
	})
	if read < 5000 {
		t.Errorf("%d comments were read, want more: the check looks at the wrong thing", read)
	}
}
