// Command cost measures what a survey costs by what there is of it: area, objects, range
// scale, length of line, each while all else stays. It flies every survey on one core, in
// turn with the others for some rounds, keeps the least time of each, and writes a table and a
// plot:
//
//	go run ./cmd/cost -o docs
package main
