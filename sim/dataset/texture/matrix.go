package texture

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Levels is how many grey levels are told apart at most.
const Levels = 32

// Matrix counts pairs of neighbours by their grey levels, the lower one first. Added up,
// matrices of many pictures are that of all of them.
type Matrix [Levels][Levels]int64

// Add counts a pair; levels are under [Levels].
func (m *Matrix) Add(a, b uint8) {
	if a > b {
		a, b = b, a
	}
	m[a][b]++
}

// Merge adds the pairs of another.
func (m *Matrix) Merge(other *Matrix) {
	for i := range m {
		for j := range m[i] {
			m[i][j] += other[i][j]
		}
	}
}

// Pairs is how many there are.
func (m *Matrix) Pairs() int64 {
	n := int64(0)
	for i := range m {
		for _, c := range m[i] {
			n += c
		}
	}
	return n
}

// share is how often level j stands beside level i, of all pairs and both ways round.
func (m *Matrix) share(i, j int, pairs float64) float64 {
	if i == j {
		return float64(m[i][i]) / pairs
	}
	return float64(m[min(i, j)][max(i, j)]) / 2 / pairs
}

// Features describe a matrix.
type Features struct {
	SecondMoment float64 `json:"angular_second_moment"` // sum of p^2: 1 for a picture of one level
	Contrast     float64 `json:"contrast"`              // sum of (i-j)^2 p, levels squared
	Correlation  float64 `json:"correlation"`           // of the levels of neighbours; 0 for a picture of one level
	Homogeneity  float64 `json:"homogeneity"`           // inverse difference moment, sum of p/(1+(i-j)^2)
	Entropy      float64 `json:"entropy"`               // -sum of p ln p, nats
}

// Features of a matrix; zeros of an empty one.
func (m *Matrix) Features() Features {
	var f Features
	pairs := float64(m.Pairs())
	if pairs == 0 {
		return f
	}
	mean, square, product := 0.0, 0.0, 0.0
	for i := range Levels {
		for j := range Levels {
			p := m.share(i, j, pairs)
			if p == 0 {
				continue
			}
			d := float64(i-j) * float64(i-j)
			f.SecondMoment += p * p
			f.Contrast += d * p
			f.Homogeneity += p / (1 + d)
			f.Entropy -= p * math.Log(p)
			mean += float64(i) * p
			square += float64(i) * float64(i) * p
			product += float64(i) * float64(j) * p
		}
	}
	if variance := square - mean*mean; variance > 1e-12 {
		f.Correlation = (product - mean*mean) / variance
	}
	return f
}

// MarshalJSON writes a text for each level: how often it stands beside itself and each of
// those above, without the zeros at the end.
func (m *Matrix) MarshalJSON() ([]byte, error) {
	rows := make([]string, 0, Levels)
	for i := range m {
		row := m[i][i:]
		for len(row) > 0 && row[len(row)-1] == 0 {
			row = row[:len(row)-1]
		}
		var words []string
		for _, n := range row {
			words = append(words, strconv.FormatInt(n, 10))
		}
		rows = append(rows, strings.Join(words, " "))
	}
	return json.Marshal(rows)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (m *Matrix) UnmarshalJSON(b []byte) error {
	var rows []string
	if err := json.Unmarshal(b, &rows); err != nil {
		return err
	}
	if len(rows) != Levels {
		return fmt.Errorf("texture: %d levels, want %d", len(rows), Levels)
	}
	*m = Matrix{}
	for i, row := range rows {
		words := strings.Fields(row)
		if len(words) > Levels-i {
			return fmt.Errorf("texture: %d counts of level %d, want at most %d", len(words), i, Levels-i)
		}
		for j, w := range words {
			n, err := strconv.ParseInt(w, 10, 64)
			if err != nil || n < 0 {
				return fmt.Errorf("texture: %q is no count", w)
			}
			m[i][i+j] = n
		}
	}
	return nil
}
