package app

import (
	"image"
	"math"
	"slices"
	"strings"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2/text/v2"
)

// fieldWide is how wide a figure's field is, points.
const fieldWide = 62

// prose is the sheet as it is laid out: words and fields in lines, lines on pages.
type prose struct {
	laid  []*laid
	pages int
}

// laid is a run of words, a figure or a choice, where it stands.
type laid struct {
	words   string
	heading bool
	figure  *entered
	picker  *picker
	page    int
	at      image.Rectangle
}

// take takes the words of another setting; figures and choices stay those they are.
func (f *prose) take(other *prose) {
	held := slices.DeleteFunc(f.laid, func(q *laid) bool { return q.words != "" })
	for _, q := range other.laid {
		if q.words != "" {
			held = append(held, q)
		}
	}
	f.laid = held
}

func (f *prose) pageOf(of *entered) int {
	for i := range f.laid {
		if f.laid[i].figure == of {
			return f.laid[i].page
		}
	}
	return 0
}

// setter sets lines one below the other.
type setter struct {
	l    *look.Look
	in   image.Rectangle
	out  prose
	line []*laid
	x, y int
}

// layProse lays the parts of the sheet out; none is broken between pages that fits on one.
func layProse(l *look.Look, all []chapter, in image.Rectangle) prose {
	s := &setter{l: l, in: in, y: in.Min.Y}
	s.out.pages = 1
	for i := range all {
		before, y := len(s.out.laid), s.y
		s.chapter(&all[i])
		if s.y <= in.Max.Y || y == in.Min.Y {
			continue
		}
		s.out.laid = s.out.laid[:before]
		s.out.pages++
		s.y = in.Min.Y
		s.chapter(&all[i])
	}
	return s.out
}

func (s *setter) chapter(p *chapter) {
	s.x = s.in.Min.X
	s.add(&laid{words: p.heading, heading: true}, int(look.Wide(p.heading, s.l.Strong)), s.l.Strong)
	s.end()
	for _, q := range p.pieces {
		switch {
		case q.figure != nil:
			s.add(&laid{figure: q.figure}, s.l.Px(fieldWide), nil)
		case q.picker != nil:
			longest := 0.0
			for _, m := range q.picker.all {
				longest = max(longest, look.Wide(m, s.l.Body))
			}
			s.add(&laid{picker: q.picker}, int(longest)+s.l.Px(24), nil)
		default:
			for _, word := range strings.Fields(q.words) {
				s.add(&laid{words: word}, int(look.Wide(word, s.l.Body))+1, s.l.Body)
			}
		}
	}
	s.end()
	s.y += s.l.Px(7)
}

// add sets a thing at the end of the line, or begins another. Words without a face are fields.
func (s *setter) add(p *laid, wide int, face text.Face) {
	space := int(look.Wide(" ", s.l.Body) + 0.5)
	if face == nil { // two stand to either side of a control
		wide += 2 * space
		defer func() { p.at.Max.X -= 2 * space }()
	}
	if len(s.line) > 0 && s.x+wide > s.in.Max.X {
		s.end()
	}
	tall := max(s.l.Px(26), int(math.Ceil(look.Tall(s.l.Body)))+2*s.l.Px(5))
	if face != nil {
		tall = int(look.Tall(face))
	}
	p.at = image.Rect(s.x, 0, s.x+wide, tall)
	s.line = append(s.line, p)
	s.x += wide + space
}

// end ends the line: its things are set about its middle, words that follow one another as one.
func (s *setter) end() {
	tall := 0
	for _, p := range s.line {
		tall = max(tall, p.at.Dy())
	}
	var joined []*laid
	for _, p := range s.line {
		p.page = s.out.pages - 1
		p.at = p.at.Add(image.Pt(0, s.y+(tall-p.at.Dy())/2))
		if n := len(joined) - 1; n >= 0 && p.words != "" && joined[n].words != "" {
			joined[n].words += " " + p.words
			joined[n].at.Max = p.at.Max
			continue
		}
		joined = append(joined, p)
	}
	x := float64(s.in.Min.X) // words set as one take less than each rounded up
	for i := range joined {
		p := joined[i]
		wide := float64(p.at.Dx())
		if p.words != "" && !p.heading {
			wide = look.Wide(p.words, s.l.Body)
		}
		p.at.Min.X, p.at.Max.X = int(x), int(math.Ceil(x+wide))
		x += wide + look.Wide("  ", s.l.Body)
	}
	s.out.laid = append(s.out.laid, joined...)
	s.y += tall + s.l.Px(3)
	s.x, s.line = s.in.Min.X, nil
}
