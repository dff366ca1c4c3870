package scenarios

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"unicode"
)

// Names of lines and channels, and an exercise's own, become parts of file names.
// An exercise takes its own from its file, made fit; the others are refused.
// They keep to what every file system takes and gives back as it was: ASCII, for
// a letter with an accent comes back from some as two characters; and no two
// differ by capitals alone, which are one name to others.
const fileNamePattern = `^[A-Za-z0-9_-]([A-Za-z0-9 _.-]*[A-Za-z0-9_-])?$`

var fileName = regexp.MustCompile(fileNamePattern)

const fileNameWant = "each a-z, A-Z, 0-9, _ - . or space, no dot or space first or last"

// longestName is how long an exercise's own name may be, characters.
const longestName = 60

var unfit = regexp.MustCompile(`[^A-Za-z0-9 _.-]+`)

// baseName is the name of an exercise in a file of that name: less directory and
// ending, what is unfit for a file name a dash.
func baseName(name string) string {
	base := filepath.Base(name)
	base = unfit.ReplaceAllString(strings.TrimSuffix(base, filepath.Ext(base)), "-")
	base = strings.Trim(base[:min(len(base), longestName)], " .")
	if base == "" {
		return "exercise"
	}
	return base
}

// invisible reports a character that shows nothing and changes how what stands
// about it is shown: controls, which reach terminals; formats, among them those
// that turn the direction of writing; and separators of lines.
func invisible(c rune) bool {
	return unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}

// uniqueNames remembers where each name was first seen.
type uniqueNames struct {
	first map[string]named
	fold  bool // names that differ by capitals alone are the same
}

type named struct {
	name string
	line int
}

func (u *uniqueNames) check(c *checker, path, name string) {
	if !c.sound(path) {
		return
	}
	key := name
	if u.fold {
		key = strings.ToLower(name)
	}
	if first, twice := u.first[key]; twice {
		problem := fmt.Sprintf("is a name already used on line %d", first.line)
		if first.name != name {
			problem += " but for capitals"
		}
		c.fault(path, shorten(name), problem, "a name of its own")
		return
	}
	if u.first == nil {
		u.first = map[string]named{}
	}
	u.first[key] = named{name, c.lines[path]}
}

// checkPictures refuses a line and a channel whose waterfall would have the file
// name of another's: A-B of channel C is A of channel B-C.
func (c *checker) checkPictures() {
	if !c.sound("lines", "sonar.channels") {
		return
	}
	type pair struct{ line, channel string }
	seen := map[string]pair{}
	for i, l := range c.file.Lines {
		for _, ch := range c.file.Sonar.Channels {
			both := strings.ToLower(l.Name + "-" + ch.Name)
			if first, twice := seen[both]; twice {
				c.fault(fmt.Sprintf("lines[%d].name", i), shorten(l.Name),
					fmt.Sprintf("and channel %s make the file name that line %s and channel %s make", ch.Name, first.line, first.channel), "names that put together differ")
				break
			}
			seen[both] = pair{l.Name, ch.Name}
		}
	}
}
