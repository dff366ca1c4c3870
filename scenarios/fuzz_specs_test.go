package scenarios

import (
	"errors"
	"strings"
	"testing"
)

// FuzzSpecs reads the files of trials and of sets of labelled data, whatever they hold:
// they are taken or refused with [Faults], each on one line.
func FuzzSpecs(f *testing.F) {
	for _, seed := range []string{
		"targets:\n  - { kind: block, size_m: 1, count: 3 }\nweather: { wind_kn: [2, 8] }\ncosts: { per_hour: 3 }\n",
		"targets: 3\n", "targets:\n  - []\n", "area: [[0, 0], [1, 0]]\ntargets:\n  - { kind: pipe, size_m: 1e308 }\n",
		"title: A set\ndescription: It.\npublished: 2031-05-14\nscenes:\n  - { exercise: first-line, seeds: 2, vary: [{ key: sea.wind_kn, from: 0, to: 9 }] }\n",
		"scenes:\n  - { exercise: ../../etc/passwd }\n", "scenes: [{ exercise: first-line, vary: [{ key: \"\", among: [] }] }]\n", "a: &a [*a]\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, source []byte) {
		for name, parse := range map[string]func() error{
			"trial":   func() error { _, err := ParseTrial("t.yaml", source); return err },
			"dataset": func() error { _, err := ParseDataset("d.yaml", source); return err },
		} {
			err := parse()
			faults, ok := errors.AsType[Faults](err)
			if err != nil && !ok {
				t.Fatalf("%s: %T %v", name, err, err)
			}
			for _, fault := range faults {
				if strings.Contains(fault.Error(), "\n") {
					t.Errorf("%s: a fault of several lines: %q", name, fault.Error())
				}
			}
		}
	})
}
