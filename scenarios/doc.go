// Package scenarios turns exercise files into [exercise.Exercise] values.
//
// An exercise file is YAML in the units people use, which stand in the key
// names: _m metres, _deg degrees, _kn knots, _khz kilohertz, _ms milliseconds,
// _percent hundredths. The engine's units (metres, seconds, radians, m/s, Hz)
// begin where this package ends.
//
// Frame: the origin is the south-west corner of the world, at the latitude and
// longitude of place; the first coordinate of a pair is metres east, the second
// metres north. All bearings are grid bearings, clockwise from grid north.
//
// The struct tags of the section types (placeSection, sonarSection, ...) are the single
// source of what a file may hold: [Parse] checks a file against them, [Schema]
// writes them out as a JSON Schema for editors, and a test holds the two
// together. A file that breaks them is refused with [Faults], which name every
// fault at once by line and key path. Viper holds the settings in between; no
// other package knows it.
package scenarios

//go:generate go run dryline/scenarios/internal/schemagen exercise.schema.json
//go:generate go run dryline/scenarios/internal/modelruns models
