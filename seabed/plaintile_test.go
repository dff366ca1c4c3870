package seabed

import "math"

// plainTile is build with everything worked out at every place, from the definitions.
func (w *World) plainTile(x0, y0 float64) *tile {
	t := new(tile)
	t.z = *w.plainField(x0, y0, w.relief.height)
	for k := range w.spec.Bedforms {
		b, st := &w.spec.Bedforms[k], &w.bedforms[k]
		switch b.Kind {
		case Waves, Ripples, SandWaves:
		case Outcrop:
			w.layOutcrop(t, k, x0, y0, w.plainField(x0, y0, plainWeight(&b.Area, st)))
		default:
			furrows := st.furrows
			for k := range furrows {
				furrows[k].plainlyInto(t, x0, y0)
			}
			rest := *st
			rest.furrows = nil
			rest.stampInto(t, x0, y0)
		}
	}
	w.plainSediments(t, x0, y0)
	w.plainWaves(t, x0, y0)
	for i := range w.objects {
		w.objects[i].scourInto(t, x0, y0)
	}
	for i, z := range t.z {
		t.z[i] = min(z, shallowest)
	}
	return t
}

func plainWeight(a *Area, st *bedformState) func(x, y float64) float64 {
	return func(x, y float64) float64 {
		weight, _ := a.weights(x, y, 0.25, 0.08, st.cover)
		return weight
	}
}

// plainField samples f on the coarse grid and interpolates it to the nodes.
func (w *World) plainField(x0, y0 float64, f func(x, y float64) float64) *field {
	c := new(coarse)
	eachCoarse(x0, y0, 0, coarseSide, func(n int, x, y float64) { c[n] = f(x, y) })
	return c.plainNodes()
}

func (c *coarse) plainNodes() *field {
	dst := new(field)
	var rows [coarseSide * tileSide]float64
	at := func(node int) (k int, w [4]float64) {
		s := float64(node-tileMargin)*nodeStep/coarseStep + coarseMargin
		k = int(s)
		return k, catmullRom(s - float64(k))
	}
	for i := range tileSide {
		k, w := at(i)
		for j := range coarseSide {
			g := c[j*coarseSide+k-1 : j*coarseSide+k+3]
			rows[j*tileSide+i] = w[0]*g[0] + w[1]*g[1] + w[2]*g[2] + w[3]*g[3]
		}
	}
	for j := range tileSide {
		k, w := at(j)
		for i := range tileSide {
			dst[j*tileSide+i] = float32(w[0]*rows[(k-1)*tileSide+i] + w[1]*rows[k*tileSide+i] +
				w[2]*rows[(k+1)*tileSide+i] + w[3]*rows[(k+2)*tileSide+i])
		}
	}
	return dst
}

func (w *World) plainSediments(t *tile, x0, y0 float64) {
	var rough field
	for n := range t.surface {
		if t.surface[n].class&outcropMark == 0 {
			t.surface[n].class = w.spec.Base
		}
	}
	w.plainRough(&rough, w.spec.Base, nil, x0, y0)
	for k := range w.spec.Patches {
		p := &w.spec.Patches[k]
		edge := w.plainEdge(k, x0, y0)
		if p.Marks.Kind != "" {
			w.plainMarks(t, k, edge, x0, y0)
			continue
		}
		share := func(x, y float64) (a, soft float64) {
			return p.Area.weights(x, y, edgeWidth, edgeMix, w.patches[k].cover)
		}
		weight := w.plainField(x0, y0, func(x, y float64) float64 { a, _ := share(x, y); return a })
		soft := w.plainField(x0, y0, func(x, y float64) float64 { _, soft := share(x, y); return soft })
		w.plainRough(&rough, p.Class, soft, x0, y0)
		eachNode(x0, y0, func(n int, x, y float64) {
			if t.surface[n].class&outcropMark == 0 && weight[n] > 0 &&
				(weight[n] >= 1 || float64(weight[n]) > 0.5+0.22*float64(edge[n])+0.1*(dither(x, y)-0.5)) {
				t.surface[n].class = p.Class
			}
		})
	}
	for n := range t.surface {
		t.surface[n].class &^= outcropMark
		t.z[n] += rough[n]
	}
}

func (w *World) plainRough(rough *field, class Class, weight *field, x0, y0 float64) {
	if w.spec.Featureless {
		return
	}
	rms := float32(w.rms[class.ground()])
	for n, z := range w.fabric.long.plainSpread(class, x0, y0) {
		s := float32(1)
		if weight != nil {
			s = min(max(weight[n], 0), 1)
		}
		rough[n] += s * (rms*z - rough[n])
		if s > 0 && s < 1 {
			rough[n] /= float32(math.Sqrt(float64(1 - 2*s*(1-s))))
		}
	}
}

func (w *World) plainEdge(k int, x0, y0 float64) *field {
	kind := Class(128 + k)
	dst, short := w.fabric.lobes.plainSpread(kind, x0, y0), w.fabric.grains.plainSpread(kind, x0, y0)
	for n, z := range short {
		dst[n] = w.fabric.ragged * (dst[n] + z)
	}
	return dst
}

func (q *quilt) plainSpread(kind Class, x0, y0 float64) *field {
	dst := new(field)
	norm := func(s float32) float32 { return 1 / float32(math.Sqrt(float64(1-2*s*(1-s)))) }
	u0, v0 := int(x0*nodesPerM)-tileMargin+quiltOrigin, int(y0*nodesPerM)-tileMargin+quiltOrigin
	for n := range dst {
		u, v := u0+n%tileSide, v0+n/tileSide
		i, share := q.along(float64(u))
		j, next := q.along(float64(v))
		s, t := float32(share), float32(next)
		z := func(a, b int) float32 {
			du, dv := q.shift(kind, i+a, j+b)
			return q.patch[(v+int(dv))&microMask*microSide+(u+int(du))&microMask]
		}
		a := z(0, 0)
		if t > 0 {
			a += t * (z(0, 1) - a)
		}
		if s > 0 {
			b := z(1, 0)
			if t > 0 {
				b += t * (z(1, 1) - b)
			}
			a = (a + s*(b-a)) * norm(s)
		}
		dst[n] = a * norm(t)
	}
	return dst
}

func (w *World) plainMarks(t *tile, k int, edge *field, x0, y0 float64) {
	noise := w.patches[k].noise
	for i := range w.patches[k].marks {
		m := &w.patches[k].marks[i]
		r := m.reach()
		eachNodeIn(x0, y0, m.at.X-r, m.at.Y-r, m.at.X+r, m.at.Y+r, func(n int, x, y float64) {
			s, bent := 1.6/m.span(), m.bend()*m.span()
			share, sink := m.cover(x+bent*noise.Eval2(x*s, y*s), y+bent*noise.Eval2(x*s+70, y*s))
			if share <= 0 {
				return
			}
			t.z[n] -= float32(m.depth * sink)
			if t.surface[n].class&outcropMark == 0 && share > 0.5+m.ragged()*float64(edge[n])+ditherShare*(dither(x, y)-0.5) {
				t.surface[n].class = w.spec.Patches[k].Class
			}
		})
	}
}

func (f *furrow) plainlyInto(t *tile, x0, y0 float64) {
	length := 0.0
	for i := 1; i < len(f.line); i++ {
		length += math.Hypot(f.line[i].X-f.line[i-1].X, f.line[i].Y-f.line[i-1].Y)
	}
	eachNode(x0, y0, func(n int, x, y float64) {
		best, along, begins := math.Inf(1), 0.0, 0.0
		for i := 1; i < len(f.line); i++ {
			a, b := f.line[i-1], f.line[i]
			dx, dy := b.X-a.X, b.Y-a.Y
			piece := math.Sqrt(dx*dx + dy*dy)
			u := min(max(((x-a.X)*dx+(y-a.Y)*dy)/(piece*piece), 0), 1)
			ex, ey := x-a.X-u*dx, y-a.Y-u*dy
			if d := ex*ex + ey*ey; d < best {
				best, along = d, begins+u*piece
			}
			begins += piece
		}
		if best < f.reach()*f.reach() {
			t.z[n] += float32(f.depthAt(along, length) * f.section(math.Sqrt(best)))
		}
	})
}

func (w *World) plainWaves(t *tile, x0, y0 float64) {
	for k := range w.spec.Bedforms {
		b, st := &w.spec.Bedforms[k], &w.bedforms[k]
		v := &st.wave
		if v.Wavelength == 0 {
			continue
		}
		weight := w.plainField(x0, y0, plainWeight(&b.Area, st))
		phase, strength := st.plainCrests(w, x0, y0)
		kx, ky := v.waveNumber()
		eachNode(x0, y0, func(n int, x, y float64) {
			a, surface := weight[n], &t.surface[n]
			if a <= 0 || b.On != Unset && surface.class != b.On {
				return
			}
			if st.fine > 0 {
				if share := uint8(min(a*strength[n], 1) * 255); share > surface.share {
					surface.field, surface.share = uint8(st.fine), share
					surface.phase = int8(math.Round(float64(phase[n]-float32(math.Round(float64(phase[n]))))*256 - 0.5))
				}
				return
			}
			at := kx*x + ky*y + float64(phase[n])
			z := v.Height / 2 * waveProfile(at, v.Asymmetry)
			if v.Kind == SandWaves {
				z += st.mega(at, x, y)
			}
			t.z[n] += a * strength[n] * float32(z)
		})
	}
}

func (st *bedformState) plainCrests(w *World, x0, y0 float64) (phase, strength *field) {
	b := &st.wave
	phase, strength = new(field), new(field)
	for n := range strength {
		strength[n] = 1
	}
	if b.Wander == 0 {
		return phase, strength
	}
	s := 1 / (6 * max(b.Wavelength, 1))
	wander := func(x, y, shift float64) float64 {
		x += shift / s
		return b.Wander * (st.noise.Eval2(x*s, y*s) + 0.5*st.noise.Eval2(2.7*x*s+9, 2.7*y*s))
	}
	between := func(x, y float64) (share, sin, cos float64) {
		sin, cos = math.Sincos(2 * math.Pi * (wander(x, y, 57) - wander(x, y, 0)))
		return max(0.45+0.75*st.noise.Eval2(0.8*x*s+23, 0.8*y*s-41), 0), sin, cos
	}
	phase = w.plainField(x0, y0, func(x, y float64) float64 { return wander(x, y, 0) })
	re := w.plainField(x0, y0, func(x, y float64) float64 { share, _, cos := between(x, y); return 1 + share*cos })
	im := w.plainField(x0, y0, func(x, y float64) float64 { share, sin, _ := between(x, y); return share * sin })
	for n := range im {
		if im[n] != 0 {
			phase[n] += float32(math.Atan2(float64(im[n]), float64(re[n])) / (2 * math.Pi))
			strength[n] = min(1, float32(math.Sqrt(float64(re[n]*re[n]+im[n]*im[n]))))
		}
	}
	return phase, strength
}
