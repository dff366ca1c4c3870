// Package trial judges plans before a boat is paid for: it flies each many times, over
// ground, in weather and with targets drawn for every run, and says what came of it with
// intervals.
//
// Plans are compared on the same draws (common random numbers): run N of every plan has
// the same seed, weather and targets in the same places, so that the difference between
// two plans is that of the plans. A run is a function of the engine's number, the trial's
// spec and seed, the plan and the run's number, and of nothing else; who flies it, where
// and in what order changes no answer.
//
// Passages are flown whole, and pings made only where a target or its shadow can be seen
// ([sim.Session.Sparse]). Detection is by a detector on raw samples against the local
// background, whose threshold is set by the false alarms it raises on bare ground, and by a
// stated model of a careful observer beside it. The run is the unit of every interval:
// targets of one run share ground, weather and lines.
//
// Inside: report draws the answers up for people.
//
// A share found is no promise of the rest: S-44 asks that every feature of the size is
// found. Nothing here is validated at sea, and nothing of it is evidence that an area is
// clear.
package trial
