package panes

import (
	"image"

	"dryline/sonar/mosaic"

	"github.com/hajimehoshi/ebiten/v2"
)

// sheetCells is how many cells of its level one texture holds along a side.
const sheetCells = 512

const (
	// moreSheets is how many textures are held beside those that are shown, for a
	// chart that is moved to and fro.
	moreSheets = 8
	// mostMade is how many are made in a frame, a millisecond or so each: what is
	// missing then comes with the next.
	mostMade = 6
)

// sheets are the textures of the part of a mosaic that is shown, at one level. A
// survey of kilometres has hundreds of megabytes at all its levels; what a pane
// shows of them has no more than four cells a pixel.
type sheets struct {
	on     map[sheetKey]map[image.Point]*pyramid // the tiles of every sheet there is anything on
	made   map[sheetKey]*sheet
	frame  int
	pixels []byte
}

// sheetKey is the level of a sheet, and its column and row on the ground in sheets
// of that level.
type sheetKey struct{ level, x, y int }

type sheet struct {
	texture *ebiten.Image
	shown   int // frame it was shown in last
}

func newSheets() sheets {
	return sheets{
		on: map[sheetKey]map[image.Point]*pyramid{}, made: map[sheetKey]*sheet{},
		pixels: make([]byte, 4*sheetCells*sheetCells),
	}
}

// keyOf is the sheet of a level that a tile lies on, and how far it is from its
// west and north edges, cells.
func keyOf(tile image.Point, level int) (key sheetKey, x, y int) {
	tiles, side := (sheetCells/mosaic.TileCells)<<level, mosaic.TileCells>>level
	key = sheetKey{level, floorDiv(tile.X, tiles), floorDiv(tile.Y, tiles)}
	return key, (tile.X - key.x*tiles) * side, sheetCells - (tile.Y-key.y*tiles+1)*side
}

// shown are the textures of a level within some columns and rows that have
// anything on them. Those that are not there yet are made.
func (s *sheets) shown(level int, in image.Rectangle) map[sheetKey]*ebiten.Image {
	s.frame++
	out, made := map[sheetKey]*ebiten.Image{}, 0
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			key := sheetKey{level, x, y}
			sh := s.made[key]
			if sh == nil {
				if s.on[key] == nil || made == mostMade {
					continue
				}
				made++
				sh = &sheet{texture: s.make(key)}
				s.made[key] = sh
			}
			sh.shown, out[key] = s.frame, sh.texture
		}
	}
	s.trim(len(out) + moreSheets)
	return out
}

// make makes a texture of the tiles that lie on it. Textures have north up, the
// grey in red and how much of a cell is known in green.
func (s *sheets) make(key sheetKey) *ebiten.Image {
	clear(s.pixels)
	for at, tile := range s.on[key] {
		_, x, y := keyOf(at, key.level)
		tile.paint(s.pixels[4*(y*sheetCells+x):], key.level, sheetCells)
	}
	// Outside the library's atlases, which grow by doubling and keep what was let go.
	texture := ebiten.NewImageWithOptions(image.Rect(0, 0, sheetCells, sheetCells), &ebiten.NewImageOptions{Unmanaged: true})
	texture.WritePixels(s.pixels)
	return texture
}

// paint writes a tile as pixels into rows of a length.
func (p *pyramid) paint(to []byte, level, rowLong int) {
	side := mosaic.TileCells >> level
	for j := range side {
		row := to[4*j*rowLong:]
		for i := range side {
			grey, known := p.at(level, i, j)
			row[4*i], row[4*i+1], row[4*i+2], row[4*i+3] = grey, known, 0, 0xff
		}
	}
}

// put takes a tile in, and paints it afresh where there is a texture of it.
func (s *sheets) put(at image.Point, p *pyramid) {
	for level := range mosaicLevels {
		key, x, y := keyOf(at, level)
		if s.on[key] == nil {
			s.on[key] = map[image.Point]*pyramid{}
		}
		s.on[key][at] = p
		sh := s.made[key]
		if sh == nil {
			continue
		}
		side := mosaic.TileCells >> level
		p.paint(s.pixels, level, side)
		part := sh.texture.RecyclableSubImage(image.Rect(x, y, x+side, y+side))
		part.WritePixels(s.pixels[:4*side*side])
		part.Recycle()
	}
}

// at is the tile that is there, nil if none is.
func (s *sheets) at(at image.Point) *pyramid {
	key, _, _ := keyOf(at, 0)
	return s.on[key][at]
}

// trim lets those textures go that were shown longest ago.
func (s *sheets) trim(most int) {
	for len(s.made) > most {
		var oldest sheetKey
		found := false
		for key, sh := range s.made {
			if !found || sh.shown < s.made[oldest].shown {
				oldest, found = key, true
			}
		}
		s.made[oldest].texture.Deallocate()
		delete(s.made, oldest)
	}
}

// Textures is how much the textures take, bytes.
func (s *sheets) Textures() int { return len(s.made) * 4 * sheetCells * sheetCells }

// Deallocate lets all textures go; those that are shown again are made again.
func (s *sheets) Deallocate() { s.trim(0) }
