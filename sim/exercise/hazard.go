package exercise

// Snag is something on the floor with a line from it to the surface: a pot and its
// buoy. The trainee sees the buoy when it is near, and no more of it.
type Snag struct {
	Name   string
	X, Y   float64 // metres
	Line   float64 // its length, metres
	Breaks float64 // what it breaks at or is torn from the floor, N
}

// Sail is another vessel, on a straight course but for what her master agrees to.
type Sail struct {
	Name    string
	From    float64 // when she comes into sight, seconds
	X, Y    float64 // where she is then, metres
	Course  float64 // grid bearing, radians
	Speed   float64 // m/s
	Draught float64 // metres
	Stands  bool    // her master will not alter: keep clear
}
