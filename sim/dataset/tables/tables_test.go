package tables_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	library "github.com/parquet-go/parquet-go"

	"dryline/sim"
	"dryline/sim/dataset/tables"
	"dryline/sim/exercise"
	"dryline/sim/product"
	"dryline/sim/simtest"
)

type ping struct {
	Scene  string  `parquet:"scene"`
	Split  string  `parquet:"split"`
	Line   string  `parquet:"line"`
	Number int64   `parquet:"ping_number"`
	X      float64 `parquet:"x"`
	TrueX  float64 `parquet:"true_x"`
	Lost   bool    `parquet:"lost"`
	Bottom int64   `parquet:"true_bottom_sample_starboard"`
}

type object struct {
	Object int64   `parquet:"object"`
	Kind   string  `parquet:"kind"`
	X      float64 `parquet:"x"`
	Height float64 `parquet:"height_m"`
	Lit    int64   `parquet:"times_lit"`
}

// The tables say of every logged ping what the session told, as a library of the format
// reads them.
func TestTables(t *testing.T) {
	ex := simtest.Small(t)
	ex.Lines = []exercise.Line{{Name: "L1", A: ex.Lines[0].A, B: ex.Lines[0].B}}
	ex.Lines[0].A.Y, ex.Lines[0].B.Y = 280, 320
	ex.Plan.Order, ex.Plan.CableOut, ex.Plan.RunIn, ex.Plan.RunOut, ex.Plan.TimeLimit = []exercise.Run{{Line: 0}}, 15, 40, 5, 900
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	var files product.Memory
	w := tables.Attach(s, &files, tables.Of{Scene: "one", Split: "train", Exercise: "small"})
	var want []ping
	lit := int64(0)
	s.Observe(sim.Observer{Truth: true, Labels: true, Ping: func(p *sim.Ping) {
		if p.Line == "" {
			return
		}
		r := ping{Scene: "one", Split: "train", Line: p.Line, Number: int64(p.Number), X: p.Fix.X, TrueX: p.Truth.Pose.X, Lost: p.Lost, Bottom: -1}
		for k, l := range p.Truth.Labels[1] {
			if k := int64(k); l.Kind.String() != "water" && l.Kind.String() != "noise" {
				r.Bottom = k
				break
			}
		}
		want = append(want, r)
		lit += int64(len(p.Truth.Lit[0]) + len(p.Truth.Lit[1]))
	}})
	for !s.Done() {
		s.Advance(100)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	got, err := read[ping](files.Content(tables.PingFile))
	if err != nil || len(want) < 50 {
		t.Fatalf("%d pings, %v", len(want), err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	duck(t, &files, want)
	objects, err := read[object](files.Content(tables.ObjectFile))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]object{{1, "block", 130, 1.2, lit}}, objects); diff != "" || lit == 0 {
		t.Errorf("lit %d times\n%s", lit, diff)
	}
}

// duck has DuckDB read the tables of two scenes at once, as docs/data.md says, and what it sums up is
// what the session told. It comes with @duckdb/node-api, for Node.
func duck(t *testing.T, files *product.Memory, want []ping) {
	t.Run("DuckDB", func(t *testing.T) {
		if err := exec.Command("node", "-e", `require("@duckdb/node-api")`).Run(); err != nil {
			if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" && os.Getenv("DRYLINE_WITHOUT_DUCKDB") == "" {
				t.Fatal("node with @duckdb/node-api in NODE_PATH is required by DRYLINE_REQUIRE_TOOLS=1")
			}
			t.Skip("node with @duckdb/node-api in NODE_PATH is not installed; DRYLINE_REQUIRE_TOOLS=1 makes this fail")
		}
		dir := t.TempDir()
		for _, scene := range []string{"one", "two"} {
			folder := filepath.Join(dir, "scenes", scene)
			if err := os.MkdirAll(folder, 0o755); err != nil {
				t.Fatal(err)
			}
			for _, name := range []string{tables.PingFile, tables.ObjectFile} {
				if err := os.WriteFile(filepath.Join(folder, name), files.Content(name), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		c := exec.Command("node", "-e", `
const { DuckDBInstance } = require("@duckdb/node-api");
(async () => {
  const c = await (await DuckDBInstance.create(":memory:")).connect();
  const row = async (q) => (await c.runAndReadAll(q)).getRowsJson()[0];
  console.log(JSON.stringify([
    await row("SELECT count(*)::int, sum(ping_number)::int, sum(true_bottom_sample_starboard)::int, sum(lost::int)::int, min(scene), max(line) FROM 'scenes/*/pings.parquet'"),
    await row("SELECT sum(x), sum(true_x) FROM 'scenes/one/pings.parquet'"),
    await row("SELECT count(*)::int, min(kind), min(x), min(height_m) FROM 'scenes/*/objects.parquet'"),
  ]));
})();`)
		c.Dir = dir
		out, err := c.CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		var got [3][]any
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		var numbers, bottoms, x, trueX float64
		for _, r := range want {
			numbers, bottoms, x, trueX = numbers+float64(r.Number), bottoms+float64(r.Bottom), x+r.X, trueX+r.TrueX
		}
		n := float64(len(want))
		expected := [3][]any{{2 * n, 2 * numbers, 2 * bottoms, 0.0, "one", "L1"}, {x, trueX}, {2.0, "block", 130.0, 1.2}}
		if diff := cmp.Diff(expected, got, cmpopts.EquateApprox(1e-9, 0)); diff != "" {
			t.Error(diff)
		}
	})
}

func read[T any](b []byte) ([]T, error) {
	return library.Read[T](bytes.NewReader(b), int64(len(b)))
}
