package tables_test

import (
	"bytes"
	"testing"

	"github.com/google/go-cmp/cmp"
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
	objects, err := read[object](files.Content(tables.ObjectFile))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]object{{1, "block", 130, 1.2, lit}}, objects); diff != "" || lit == 0 {
		t.Errorf("lit %d times\n%s", lit, diff)
	}
}

func read[T any](b []byte) ([]T, error) {
	return library.Read[T](bytes.NewReader(b), int64(len(b)))
}
