package measure

// nth returns the value that would stand at an index if values, none of which is not a number, were sorted. It
// puts them in another order.
//
// Source: Hoare 1961, Communications of the ACM 4, 321, algorithm 65; the middle of three as the pivot is common
// practice.
func nth(values []float32, index int) float32 {
	low, high := 0, len(values)-1
	for low < high {
		pivot := middleOfThree(values[low], values[low+(high-low)/2], values[high])
		i, j := low, high
		for i <= j {
			for values[i] < pivot {
				i++
			}
			for values[j] > pivot {
				j--
			}
			if i <= j {
				values[i], values[j] = values[j], values[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case index <= j:
			high = j
		case index >= i:
			low = i
		default:
			return values[index]
		}
	}
	return values[index]
}

func middleOfThree(a, b, c float32) float32 { return max(min(a, b), min(max(a, b), c)) }
