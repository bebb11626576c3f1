package measure

// leastOfNinth is how many stars a ninth of the frame has to have for its diameter to tell. Our choice.
const leastOfNinth = 5

// ninthsOf returns the median half-flux diameters of the ninths of a frame, row by row in the order of the file; 0
// where too few stars are sure.
func ninthsOf(stars []candidate, width, height int) (ninths [9]float64) {
	var of [9][]candidate
	for _, c := range trusted(stars) {
		column, row := min(int(3*c.X)/width, 2), min(int(3*c.Y)/height, 2)
		of[3*row+column] = append(of[3*row+column], c)
	}
	for i, some := range of {
		if len(some) >= leastOfNinth {
			ninths[i] = medianOf(some, func(c candidate) float64 { return c.HFD })
		}
	}
	return ninths
}
