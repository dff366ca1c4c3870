package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"dryline/sim/provenance"
)

func newVersionCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "version",
		Short: "Say which version this is",
		Long: `Say which version this is: of the module, of the source it was built from, of
Go, and of the platform. The engine number stands for "the same bytes": two
programs of one number give the same survey on one platform.`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			v := versionNow()
			if asJSON {
				return printJSON(c.OutOrStdout(), v)
			}
			_, err := fmt.Fprintln(c.OutOrStdout(), v)
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

// version says what was built from what.
type version struct {
	Module   string `json:"module_version"`
	Revision string `json:"vcs_revision,omitempty"` // of the source; empty if the build did not note it
	Modified bool   `json:"vcs_modified,omitempty"`
	Engine   int    `json:"dryline_engine"`
	Go       string `json:"go"`
	Platform string `json:"platform"`
}

func versionNow() version {
	v := version{Module: "(devel)", Engine: provenance.Engine, Go: runtime.Version(), Platform: provenance.Platform()}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return v
	}
	if info.Main.Version != "" {
		v.Module = info.Main.Version
	}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			v.Revision = s.Value
		case "vcs.modified":
			v.Modified = s.Value == "true"
		}
	}
	return v
}

// String is the version on one line.
func (v version) String() string {
	revision := "unknown"
	if v.Revision != "" {
		revision = v.Revision
		if v.Modified {
			revision += " and changes"
		}
	}
	return fmt.Sprintf("dryline %s, source %s, engine %d, %s, %s", v.Module, revision, v.Engine, v.Go, v.Platform)
}
