package order

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

var (
	ones  = []string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	teens = []string{"ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"}
	tens  = []string{"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}
)

// figure makes out a number in figures or in words: zero nine five, fifteen, twenty five,
// one hundred and ten, four point five.
func figure(words []string) (v float64, ok bool) {
	words = strings.Fields(strings.ReplaceAll(strings.Join(words, " "), "-", " "))
	if len(words) == 0 || len(words) > 6 {
		return 0, false
	}
	if i := slices.Index(words, "point"); i > 0 {
		whole, ok := figure(words[:i])
		part, rest := 0.0, words[i+1:]
		if !ok || len(rest) == 0 {
			return 0, false
		}
		for k, w := range rest {
			d := digit(w)
			if d < 0 {
				return 0, false
			}
			part += float64(d) / math.Pow(10, float64(k+1))
		}
		return whole + part, true
	}
	if len(words) == 1 {
		if w := words[0]; strings.Trim(w, "0123456789.") == "" {
			v, err := strconv.ParseFloat(w, 64)
			return v, err == nil && v < 1e6
		}
	}
	if !slices.ContainsFunc(words, func(w string) bool { return digit(w) < 0 }) { // one by one
		for _, w := range words {
			v = 10*v + float64(digit(w))
		}
		return v, true
	}
	if i := slices.Index(words, "hundred"); i == 1 && digit(words[0]) > 0 {
		rest := words[2:]
		if len(rest) > 0 && rest[0] == "and" {
			rest = rest[1:]
		}
		v = 100 * float64(digit(words[0]))
		if len(rest) == 0 {
			return v, len(words) == 2
		}
		below, ok := figure(rest)
		return v + below, ok && below < 100
	}
	if i := slices.Index(teens, words[0]); i >= 0 {
		return float64(10 + i), len(words) == 1
	}
	i := slices.Index(tens[2:], words[0])
	switch {
	case i < 0 || len(words) > 2:
		return 0, false
	case len(words) == 2:
		d := digit(words[1])
		return float64(10*(i+2) + d), d > 0
	}
	return float64(10 * (i + 2)), true
}

// digit is a figure in words or as it is, -1 for none.
func digit(w string) int {
	if len(w) == 1 && w[0] >= '0' && w[0] <= '9' {
		return int(w[0] - '0')
	}
	if w == "niner" {
		return 9
	}
	return slices.Index(ones, w)
}

// oneByOne speaks the figures of a number one by one.
func oneByOne(figures string) string {
	var words []string
	for _, c := range figures {
		words = append(words, ones[c-'0'])
	}
	return strings.Join(words, " ")
}

// inWords speaks a number of at least nothing, to a tenth.
func inWords(v float64) string {
	tenths := int(math.Round(10 * v))
	n := tenths / 10
	var words []string
	if n >= 1000 {
		words = append(words, strconv.Itoa(n))
		n = -1
	}
	if n >= 100 {
		words = append(words, ones[n/100], "hundred")
		if n %= 100; n == 0 {
			n = -1
		}
	}
	switch {
	case n >= 20:
		words = append(words, tens[n/10])
		if n%10 > 0 {
			words = append(words, ones[n%10])
		}
	case n >= 10:
		words = append(words, teens[n-10])
	case n >= 0:
		words = append(words, ones[n])
	}
	if tenths%10 != 0 {
		words = append(words, "point", ones[tenths%10])
	}
	return strings.Join(words, " ")
}
