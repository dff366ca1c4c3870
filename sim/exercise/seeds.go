package exercise

// Seeds begin every stream of chance of a session, each cause by its own. Derived
// from one, all are that one: the streams have names, which keep them apart.
type Seeds struct {
	One uint64 // the seed they are derived from, and the session is called by

	Ground  uint64 // relief, bedforms, sediments, the shapes of objects
	Placed  uint64 // what objects there are and where, of those left to chance
	Weather uint64 // sea and wind, the restlessness of the fish, the instruments
	Sonar   uint64 // noise, speckle, what spoils a record
}

// SeedsOf derives all seeds from one.
func SeedsOf(one uint64) Seeds { return Seeds{one, one, one, one, one} }
