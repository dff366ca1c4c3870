package dataset

import (
	"math"
	"sync"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/dataset/texture"
	"dryline/sonar"
)

// directions are those in which samples neighbour each other: the next of the same ping;
// of the ping after, the same, the next farther out and the next nearer.
var directions = [4]string{"range", "track", "outwards", "inwards"}

// Texture is the co-occurrence of levels on lit floor of a sediment, on the first channel:
// pairs of neighbouring samples that both show it, in the directions range, track, outwards
// and inwards. Levels are the decibels of a count from 0 to full scale in 32 even steps.
type Texture struct {
	Sediment string                          `json:"sediment"`
	Pairs    [len(directions)]texture.Matrix `json:"pairs_by_direction"`
}

// levelStep is how many decibels a level is.
const levelStep = 96.32959861247399 / texture.Levels // 20 log10 of full scale

// levels is by count.
var levels = sync.OnceValue(func() *[math.MaxUint16 + 1]uint8 {
	table := new([math.MaxUint16 + 1]uint8)
	for c := range table {
		table[c] = uint8(min(int(20*math.Log10(float64(max(c, 1)))/levelStep), texture.Levels-1))
	}
	return table
})

// grain gathers texture. It leaves no ping out, for neighbours matter.
type grain struct {
	sums   [seabed.FirstMaterial]*Texture
	before [2]row // of each side, the last ping's
	now    row
}

// row is a ping of a side.
type row struct {
	level []uint8
	class []seabed.Class // of the lit floor shown, Unset elsewhere
	next  uint64         // number of the ping that would follow it
}

// of makes it that of a ping.
func (r *row) of(number uint64, samples []uint16, labels []sonar.Label) {
	r.level, r.class, r.next = r.level[:0], r.class[:0], number+1
	table := levels()
	for k := range labels {
		class := seabed.Unset
		if l := &labels[k]; l.Kind == sonar.FloorLabel && l.Class < seabed.FirstMaterial {
			class = l.Class
		}
		r.level, r.class = append(r.level, table[samples[k]]), append(r.class, class)
	}
}

func (g *grain) attend(s *sim.Session) {
	s.Observe(sim.Observer{Truth: true, Labels: true, Ping: func(p *sim.Ping) {
		if p.Line == "" || p.Lost {
			return
		}
		g.add(sonar.Port, p.Number, p.Port[0], p.Truth.Labels[sonar.Port])
		g.add(sonar.Starboard, p.Number, p.Starboard[0], p.Truth.Labels[sonar.Starboard])
	}})
}

func (g *grain) add(side sonar.Side, number uint64, samples []uint16, labels []sonar.Label) {
	now, before := &g.now, &g.before[side]
	now.of(number, samples, labels)
	follows := before.next == number && len(before.level) == len(now.level)
	level, class := now.level, now.class
	for k, c := range class {
		if c == seabed.Unset {
			continue
		}
		sum := g.sums[c]
		if sum == nil {
			sum = &Texture{Sediment: c.String()}
			g.sums[c] = sum
		}
		if k > 0 && class[k-1] == c {
			sum.Pairs[0].Add(level[k-1], level[k])
		}
		if !follows {
			continue
		}
		for d, from := range [...]int{k, k - 1, k + 1} { // what the ping before had there
			if from >= 0 && from < len(class) && before.class[from] == c {
				sum.Pairs[1+d].Add(before.level[from], level[k])
			}
		}
	}
	*now, *before = *before, *now
}

// all are those of which there is anything, by sediment.
func (g *grain) all() []Texture {
	list := []Texture{}
	for _, t := range g.sums {
		if t != nil {
			list = append(list, *t)
		}
	}
	return list
}

// mergeTextures adds what a scene has.
func mergeTextures(all map[string]*Texture, more []Texture) {
	for i := range more {
		m := &more[i]
		t := all[m.Sediment]
		if t == nil {
			t = &Texture{Sediment: m.Sediment}
			all[m.Sediment] = t
		}
		for d := range t.Pairs {
			t.Pairs[d].Merge(&m.Pairs[d])
		}
	}
}
