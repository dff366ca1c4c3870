package main

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryline/sim/provenance"
)

var updateDigests = flag.Bool("update-digests", false, "write testdata/sessions/digests.txt anew")

const (
	sessionsDir = "../../testdata/sessions"
	digestsFile = sessionsDir + "/digests.txt"
)

// The committed sessions, flown again, hand over the very bytes that are written
// down for this engine number. A commit that moves a digest raises the number and
// says why.
func TestCommittedSessionsGiveTheSameBytes(t *testing.T) {
	logs, err := filepath.Glob(filepath.Join(sessionsDir, "*.jsonl"))
	if err != nil || len(logs) == 0 {
		t.Fatalf("no committed sessions: %v", err)
	}
	engine, want := readDigests(t)
	if engine != provenance.Engine && !*updateDigests {
		t.Fatalf("%s is of engine %d, and this is engine %d: -update-digests writes it anew", digestsFile, engine, provenance.Engine)
	}
	got := map[string]string{}
	for _, log := range logs {
		session := strings.TrimSuffix(filepath.Base(log), ".jsonl")
		if testing.Short() && session != "first-line" {
			continue
		}
		folder := filepath.Join(t.TempDir(), session)
		var stdout, stderr bytes.Buffer
		if status := Main([]string{"replay", log, "-o", folder}, &stdout, &stderr); status != exitOK {
			t.Fatalf("replay %s: status %d\n%s", log, status, stderr.String())
		}
		for name, digest := range digestsOf(t, folder) {
			file := session + "/" + name
			if got[file] = digest; digest != want[file] && !*updateDigests {
				t.Errorf("%s: digest %.12s, written down %.12s: if that is meant, raise provenance.Engine and use -update-digests", file, digest, want[file])
			}
		}
		for file := range want {
			if strings.HasPrefix(file, session+"/") && got[file] == "" && !*updateDigests {
				t.Errorf("%s is handed over no longer", file)
			}
		}
	}
	switch {
	case !*updateDigests:
	case engine == provenance.Engine && !maps.Equal(got, want):
		t.Errorf("digests moved, and the engine number is %d still: raise it first", engine)
	default:
		writeDigests(t, got)
	}
}

// digestsOf is the SHA-256 of every file of a folder, by name.
func digestsOf(t *testing.T, folder string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	digests := map[string]string{}
	for _, e := range entries {
		content, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		sum := sha256.Sum256(content)
		digests[e.Name()] = hex.EncodeToString(sum[:])
	}
	return digests
}

// readDigests reads the engine number in the first line, "engine N", then lines of
// "DIGEST  SESSION/FILE", as sha256sum writes them.
func readDigests(t *testing.T) (engine int, digests map[string]string) {
	t.Helper()
	digests = map[string]string{}
	file, err := os.Open(digestsFile)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines := bufio.NewScanner(file)
	lines.Scan()
	if _, err := fmt.Sscanf(lines.Text(), "engine %d", &engine); err != nil {
		t.Fatalf("%s: the first line names no engine: %q", digestsFile, lines.Text())
	}
	for lines.Scan() {
		digest, name, ok := strings.Cut(lines.Text(), "  ")
		if !ok {
			t.Fatalf("%s: not a digest: %q", digestsFile, lines.Text())
		}
		digests[name] = digest
	}
	return engine, digests
}

func writeDigests(t *testing.T, digests map[string]string) {
	t.Helper()
	if testing.Short() {
		t.Fatal("-update-digests needs every session: leave out -short")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "engine %d\n", provenance.Engine)
	for _, name := range slices.Sorted(maps.Keys(digests)) {
		fmt.Fprintf(&b, "%s  %s\n", digests[name], name)
	}
	if err := os.WriteFile(digestsFile, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
