// Command dryline plans, runs and judges side-scan survey exercises without a
// window, and answers the questions a surveyor asks beforehand.
//
//	dryline calc ping-rate --range 75
//	dryline calc sound-speed --temperature 10 --salinity 35 --depth 20 --json
//
// Every flag says its unit. Results go to standard output; warnings and faults
// go to standard error, a line each. The exit status is 0 when all went well, 2
// when the command line is wrong, and 1 when what it asks for cannot be done.
package main
