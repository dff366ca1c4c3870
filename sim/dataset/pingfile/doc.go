// Package pingfile writes the pings of a survey with what is true of them: a netCDF file
// for every line and channel, with the samples as they were recorded, where the desk
// took the fish to be, where it was, and what each sample shows.
//
// What is the desk's belief stands in variables of its own, apart from the truth, whose
// names begin with true_ or are label, object, sediment, ground_range and across_*.
// Labels are told apart on the first channel and stand in the file of every channel.
// Frames and units are in the attributes: the local grid east and north, metres, z up from
// the mean level of the water; bearings clockwise from the grid's north, degrees.
//
// Attributes follow the CF conventions 1.11 and the Attribute Convention for Data
// Discovery 1.3. Dimensions and their names are after those of ICES' SONAR-netCDF4
// convention where they fit a side-scan record, without claim of conformance.
package pingfile
