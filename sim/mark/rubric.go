package mark

// Version is the version of the rubric: what is marked, how, and with which default
// weights. A change that could move anybody's points raises it.
const Version = 3

// ID names an item of the rubric. Ids stay what they are; an item that means
// something else gets another.
type ID string

// The items.
const (
	Coverage   ID = "coverage"   // ground looked at in a way that counts
	Lines      ID = "lines"      // planned lines logged
	OffLine    ID = "off_line"   // the fish on its line
	Height     ID = "height"     // the fish at its height
	Pings      ID = "pings"      // pings to a metre
	Contacts   ID = "contacts"   // objects reported, and nothing else
	Dimensions ID = "dimensions" // how large they were said to be
	Position   ID = "position"   // where the desk puts the ground
	Clear      ID = "fish_clear" // the fish kept clear of everything
)

// IDs are the items in the order they are shown.
func IDs() []ID {
	return []ID{Coverage, Lines, OffLine, Height, Pings, Contacts, Dimensions, Position, Clear}
}

// Weights say what each item can give, in points.
type Weights map[ID]float64

// Full is the number of points that the items of an exercise give together.
const Full = 100.0

// Default returns what the items give where an exercise does not say: a search is marked
// by a third for what was reported; where nothing lies to be found that goes to the
// ground covered. Shares of judgement, our own choice.
func Default(objects bool) Weights {
	w := Weights{
		Coverage: 25, Lines: 10, OffLine: 10, Height: 10, Pings: 5,
		Contacts: 24, Dimensions: 6, Position: 5, Clear: 5,
	}
	if !objects {
		w[Coverage] += w[Contacts] + w[Dimensions]
		w[Contacts], w[Dimensions] = 0, 0
	}
	return w
}

// Over spreads the points of items that are not asked for over those that are, in
// proportion, so that they add up to [Full]; all to coverage if nothing else is.
func (w Weights) Over(asked func(ID) bool) Weights {
	sum := 0.0
	for _, id := range IDs() {
		if asked(id) {
			sum += w[id]
		}
	}
	out := Weights{}
	for _, id := range IDs() {
		if asked(id) && sum > 0 {
			out[id] = w[id] * Full / sum
		}
	}
	if sum <= 0 {
		out[Coverage] = Full
	}
	return out
}
