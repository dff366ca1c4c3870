// Package assess has a session flown as an assessment: on ground drawn for it alone, without
// help, and written down so that the trainee's folder holds desk products only.
//
// What it is made of lies in age files (C2SP, age-encryption.org/v1): the exercise and its
// seeds ([SecretFile]) and what came of it ([FindingsFile]) for the instructor and for the
// installation it was begun on, so that it can be resumed there; the key of the records
// ([KeyFile]) for the instructor alone. The log ([LogFile]) has every order with the hour it
// was given at. Each record is tied to all before it (SHA-256) and carries an HMAC (RFC 2104).
// The key of the HMAC moves on with every record and the one before is forgotten: the
// installation keeps the next one ([StateFile]), which cannot make a record that was written.
//
// Inside is keep: the keys, and assessments under way, on disk.
//
// # What it does not protect against
//
// The session runs on the trainee's machine. The memory of a program can be read, and the
// program can be changed: it is open. The installation's key lies on that machine too, and anyone
// who can read it can open exercise, seeds and findings, also while the session is under way. Anyone who has
// the instructor's public key can make a whole assessment anew, with seeds of their own or of one they
// opened and hours as they like, or fly several and hand in the best. The hours are the machine's own, which can be set; a folder under way
// that was copied and resumed twice shows as a gap at most. It makes cheating an effort
// and leaves marks of the careless kind; an invigilator is not replaced.
//
// The evidence is the order log flown again by the instructor ([Open]): the orders that were
// given, over that ground, give this survey, whoever sealed what.
package assess
