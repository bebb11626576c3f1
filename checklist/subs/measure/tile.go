package measure

const (
	core   = 768 // pixels of a tile's own
	margin = 64  // pixels around it that are looked at as well
	side   = core + 2*margin
)

// tile is a part of the frame by the first pixel of its own.
type tile struct{ x, y int }

func tilesOf(width, height int) []tile {
	var tiles []tile
	for y := 0; y < height; y += core {
		for x := 0; x < width; x += core {
			tiles = append(tiles, tile{x, y})
		}
	}
	return tiles
}

// owns tells whether a peak at a place of the patch belongs to this tile, not to a neighbour.
func owns(at int32) bool {
	x, y := int(at)%side, int(at)/side
	return x >= margin && x < margin+core && y >= margin && y < margin+core
}
