package house

import (
	"bufio"
	"bytes"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// deps maps every package of the module to all it depends on, tests not
// counted.
func deps(t *testing.T) map[string][]string {
	t.Helper()
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Deps " "}}`, "dryline/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	m := map[string][]string{}
	lines := bufio.NewScanner(bytes.NewReader(out))
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		f := strings.Fields(lines.Text())
		m[f[0]] = f[1:]
	}
	if len(m) < 15 {
		t.Fatalf("go list found %d packages, want the whole module", len(m))
	}
	return m
}

// under reports whether a package is one of the rooms or inside one.
func under(pkg string, rooms ...string) bool {
	for _, r := range rooms {
		if pkg == r || strings.HasPrefix(pkg, r+"/") {
			return true
		}
	}
	return false
}

// groundFloor holds the leaves that every room may stand on; they know nothing of a
// sea floor, though they lie below it.
var groundFloor = []string{"dryline/seabed/chance", "dryline/seabed/units"}

// rubric is the arithmetic of marking, which an exercise names its weights by: it knows
// no session.
const rubric = "dryline/sim/mark"

// The rules. A package under one of the rooms must not depend, at any depth,
// on anything under the forbidden ones, except what is allowed.
var rules = []struct {
	why       string
	rooms     []string
	forbidden []string
	allowed   []string
}{
	{
		"dependencies point from cmd to scenarios to sim to sonar and vessel to seabed",
		[]string{"dryline/seabed"}, []string{"dryline"}, []string{"dryline/seabed"},
	}, {
		"the vessel knows neither sonar nor session",
		[]string{"dryline/vessel"}, []string{"dryline/sonar", "dryline/sim", "dryline/scenarios", "dryline/cmd"}, nil,
	}, {
		"the sonar knows neither vessel nor session",
		[]string{"dryline/sonar"}, []string{"dryline/vessel", "dryline/sim", "dryline/scenarios", "dryline/cmd"},
		[]string{"dryline/vessel/nav/geodesy"},
	}, {
		"the session knows neither exercise files nor commands",
		[]string{"dryline/sim"}, []string{"dryline/scenarios", "dryline/cmd"}, nil,
	}, {
		"the desk and its pictures see observations, never the truth",
		[]string{"dryline/sim/survey", "dryline/sim/record", "dryline/sim/remake", "dryline/sonar/waterfall", "dryline/sonar/mosaic"},
		[]string{"dryline/seabed", "dryline/vessel", "dryline/sonar", "dryline/sim"},
		append([]string{"dryline/sim/survey", "dryline/sim/record", "dryline/sim/remake", "dryline/sonar/recorder", "dryline/sonar/waterfall", "dryline/sonar/mosaic", "dryline/vessel/nav"}, groundFloor...),
	}, {
		"a passage flies without a session, its desk and its debrief",
		[]string{"dryline/sim/passage", "dryline/sim/hand", "dryline/sim/order", "dryline/sim/exercise"}, []string{"dryline/sim"},
		[]string{"dryline/sim/passage", "dryline/sim/hand", "dryline/sim/order", "dryline/sim/exercise", "dryline/sim/survey", "dryline/sim/provenance", "dryline/seabed/chance", rubric},
	}, {
		"the coach sees what a trainee may know",
		[]string{"dryline/sim/coach"}, []string{"dryline/sim"},
		[]string{"dryline/sim/coach", "dryline/sim/passage", "dryline/sim/order", "dryline/sim/exercise", "dryline/sim/survey", "dryline/sim/provenance", "dryline/seabed/chance", rubric},
	}, {
		"reports are drawn up from what a trainee may know",
		[]string{"dryline/sim/report"}, []string{"dryline/sim"},
		[]string{"dryline/sim/report", "dryline/sim/exercise", "dryline/sim/survey", "dryline/sim/provenance", "dryline/seabed/chance", rubric},
	}, {
		"the formats of labelled data know nothing of what is written in them",
		[]string{"dryline/sim/dataset/cdf", "dryline/sim/dataset/coco", "dryline/sim/dataset/parquet", "dryline/sim/dataset/zarr"}, []string{"dryline"},
		[]string{"dryline/sim/dataset/cdf"},
	}, {
		"labelled data holds the truth: what a trainee uses does not lean on it",
		[]string{"dryline/sim/survey", "dryline/sim/coach", "dryline/sim/report", "dryline/sim/product", "dryline/scenarios", "dryline/cmd/dryline-desk"}, []string{"dryline/sim/dataset"},
		[]string{"dryline/sim/dataset/setspec"},
	}, {
		"a plan is geometry: it flies nothing, pings nothing and knows no exercise",
		[]string{"dryline/sim/plan"}, []string{"dryline/sim", "dryline/sonar", "dryline/seabed"},
		append([]string{"dryline/sim/plan", "dryline/sim/provenance", "dryline/sim/survey/geojson"}, groundFloor...),
	}, {
		"the engine knows no screen",
		[]string{"dryline/sim", "dryline/seabed", "dryline/vessel", "dryline/sonar", "dryline/scenarios"},
		[]string{"github.com/hajimehoshi/ebiten", "github.com/ebitenui/ebitenui"}, nil,
	}, {
		"scenarios is the only place that knows viper",
		[]string{"dryline/sim", "dryline/seabed", "dryline/vessel", "dryline/sonar"},
		[]string{"github.com/spf13/viper"}, nil,
	},
}

func TestImportsPointOneWay(t *testing.T) {
	for pkg, all := range deps(t) {
		for _, r := range rules {
			if !under(pkg, r.rooms...) {
				continue
			}
			for _, d := range all {
				if under(d, r.forbidden...) && !under(d, r.allowed...) {
					t.Errorf("%s depends on %s: %s", pkg, d, r.why)
				}
			}
		}
	}
}

// The engine writes to sinks it is given and knows no disk and no terminal: only
// the folder of products, the record store and the keys and boxes of assessments open files.
func TestTheEngineKnowsNoDisk(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "dryline/sim/...", "dryline/seabed/...", "dryline/vessel/...", "dryline/sonar/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		if under(f[0], "dryline/sim/product/folder", "dryline/sim/record", "dryline/sim/assess/keep") {
			continue
		}
		for _, d := range []string{"os", "os/exec", "io/ioutil", "path/filepath", "golang.org/x/term"} {
			if slices.Contains(f[1:], d) {
				t.Errorf("%s imports %s", f[0], d)
			}
		}
	}
}

// Only scenarios imports viper by itself, even among the commands.
func TestViperLivesInScenarios(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "dryline/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	found := false
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		if slices.Contains(f[1:], "github.com/spf13/viper") {
			found = true
			if !under(f[0], "dryline/scenarios") {
				t.Errorf("%s imports viper", f[0])
			}
		}
	}
	if !found {
		t.Error("nobody imports viper: the check looks at the wrong thing")
	}
}

func TestTheGroundFloorStandsOnNothing(t *testing.T) {
	all := deps(t)
	for _, leaf := range groundFloor {
		on, there := all[leaf]
		if !there {
			t.Errorf("%s is not there", leaf)
		}
		for _, d := range on {
			if under(d, "dryline") {
				t.Errorf("%s depends on %s, and is to be a leaf", leaf, d)
			}
		}
	}
}

func TestNoCatchAllPackages(t *testing.T) {
	for pkg := range deps(t) {
		switch last := pkg[strings.LastIndexByte(pkg, '/')+1:]; last {
		case "utils", "util", "common", "helpers", "misc", "shared":
			t.Errorf("%s: a package is named for what it is about", pkg)
		}
	}
}
