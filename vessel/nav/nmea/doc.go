// Package nmea says what the instruments show in sentences of NMEA 0183, for
// any listener that takes them.
//
// A sentence is "$", a talker of two letters, a kind of three, fields with a
// comma before each, "*", a checksum and CR LF, at most [MaxLength] bytes in
// all. The checksum is the exclusive or of the bytes between "$" and "*", as
// two hexadecimal digits. A field with nothing to say is empty.
//
// Units: a reading has metres, radians and m/s; a sentence has degrees and
// minutes, degrees from 0 to 360, knots, degrees a minute, and metres, feet or
// fathoms by the field. Times are UTC. A rate of turn is negative when the bow
// goes to port. Wind angles are from the bow, clockwise.
//
// A display that does not hold good by its own account leaves its fields
// empty, with the status that says so: quality 0, mode N, status V. What it
// showed last is never sent again. So is a number that is not finite or too
// long for its field.
//
// The sentences say that they are simulated where the standard lets them: GGA
// with quality 8, RMC and VTG with mode S, and then RMC with status V. HDT, ROT,
// DPT, DBT, MWV, ZDA and XDR have no field for that. [Source] can hide it from
// listeners that drop simulated data; a training aid, never for navigation.
//
// The standard is sold, not published. Fields, limits and flags here are as in
// public descriptions ("NMEA Revealed" v2.24, of the gpsd project) and makers'
// manuals; the talkers and the letters of XDR are from memory.
//
// Left out: height of the antenna, magnetic course and variation, which no
// instrument on board gives.
package nmea
