package screens

import (
	"duskhand/ui/draw"
	"duskhand/ui/layout"
)

// WidestAnswer is what the digits leave room for, so that nothing jumps as they change.
const WidestAnswer = "00:00"

// AnswerRows returns how many rows the answer takes in a window, at most a third of its height or what
// the smallest big digits need: one where even those are too wide.
func AnswerRows(width, height int) int {
	_, smallest := draw.BigTextSize(WidestAnswer, 1)
	scale := draw.FitBigText(WidestAnswer, width-2*layout.Margin(width), max(height*2/5, smallest))
	_, rows := draw.BigTextSize(WidestAnswer, scale)
	return max(1, rows)
}

// Modest is the height for which the answer is sized on screens whose list matters as much.
const Modest = 16
