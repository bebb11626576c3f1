package sky

import "math"

// matrix is a 3 × 3 matrix by rows. Its rotations turn the axes, not the vector: aboutX(a) carries
// coordinates into axes turned by a about X.
type matrix [3][3]float64

func aboutX(a Angle) matrix {
	s, c := math.Sincos(float64(a))
	return matrix{{1, 0, 0}, {0, c, s}, {0, -s, c}}
}

func aboutZ(a Angle) matrix {
	s, c := math.Sincos(float64(a))
	return matrix{{c, s, 0}, {-s, c, 0}, {0, 0, 1}}
}

func (m matrix) times(n matrix) (p matrix) {
	for i := range 3 {
		for j := range 3 {
			p[i][j] = m[i][0]*n[0][j] + m[i][1]*n[1][j] + m[i][2]*n[2][j]
		}
	}
	return p
}

func (m *matrix) apply(d Direction) Direction {
	return Direction{
		m[0][0]*d.X + m[0][1]*d.Y + m[0][2]*d.Z,
		m[1][0]*d.X + m[1][1]*d.Y + m[1][2]*d.Z,
		m[2][0]*d.X + m[2][1]*d.Y + m[2][2]*d.Z,
	}
}

// applyInverse applies the transpose, which for a rotation is the inverse.
func (m *matrix) applyInverse(d Direction) Direction {
	return Direction{
		m[0][0]*d.X + m[1][0]*d.Y + m[2][0]*d.Z,
		m[0][1]*d.X + m[1][1]*d.Y + m[2][1]*d.Z,
		m[0][2]*d.X + m[1][2]*d.Y + m[2][2]*d.Z,
	}
}
