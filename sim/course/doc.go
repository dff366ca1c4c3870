// Package course is a sequence of exercises and how far a trainee has come with it:
// what is open to try, what is passed, what is due to be done again, which causes of lost
// points recur. A record is made of debriefs; it judges nothing itself.
package course
