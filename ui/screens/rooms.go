package screens

import (
	"fmt"

	"duskhand/ui/draw"
	"duskhand/ui/keys"
	"duskhand/ui/layout"
	"duskhand/ui/theme"
)

// roomsFrom is the height of a window from which the line of rooms stands in its first row.
const roomsFrom = 24

// RoomsRows is how many rows the line of rooms takes of a window.
func RoomsRows(height int) int {
	if height < roomsFrom {
		return 0
	}
	return 1
}

// PlacedRoom is a room's name in the line of rooms, from a column on to before another.
type PlacedRoom struct {
	Screen   keys.Screen
	Words    string
	From, To int
}

// PlacedRooms are the rooms in a line of a width: by number and name, where that is too wide by number, and the open
// one by name.
func (s Status) PlacedRooms(width int) []PlacedRoom {
	for _, gap := range []int{2, 1} {
		if line := s.roomsApart(width, gap, true); line[len(line)-1].To <= width {
			return line
		}
	}
	return s.roomsApart(width, 1, false)
}

func (s Status) roomsApart(width, gap int, named bool) (line []PlacedRoom) {
	x := layout.Margin(width)
	for room := range keys.ScreenCount {
		words := fmt.Sprint(int(room) + 1)
		if named || room == s.Screen {
			words += " " + room.Room()
		}
		line = append(line, PlacedRoom{room, words, x, x + draw.Width(words)})
		x += draw.Width(words) + gap
	}
	return line
}

// Rooms draws the line of rooms, the open one marked.
func (s Status) Rooms(area draw.Area) {
	for _, room := range s.PlacedRooms(area.Width()) {
		role := theme.Faint
		if room.Screen == s.Screen {
			role = theme.Key
			area.PutRune(room.From-1, 0, theme.Key, '›')
		}
		area.Put(room.From, 0, role, room.Words)
	}
}
