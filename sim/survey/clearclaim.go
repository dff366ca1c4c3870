package survey

import (
	"errors"
	"regexp"
)

var (
	clearPlace = regexp.MustCompile(`(?i)\b(area|ground|sea ?bed|sea ?floor|bottom|route|site|channel|fairway|line|survey|everything|all)\s+((is|are|was|were|looks?|seems?|appears?|found|declared|proved|proven|now|all|to|be|as|has|been|quite|completely|fully)\s+)*clear(ed)?\b`)
	clearOf    = regexp.MustCompile(`(?i)\bclear(ed)?\s+(area|ground|sea ?bed|sea ?floor|route|site|of\s+(any\s+|all\s+)?(hazards?|obstructions?|obstacles?|dangers?|mines?|ordnance|uxo|debris|wrecks?|targets?|contacts?|objects?|features?))\b`)
)

// errClear is why a text is not printed.
var errClear = errors.New("a side-scan record never shows that ground is clear: say what was searched, how, and what was found")

// claimsClear reports whether a text claims that somewhere is clear of hazards, which
// nothing that Dryline makes supports.
func claimsClear(text string) bool { return clearPlace.MatchString(text) || clearOf.MatchString(text) }
