// Package cdf writes the classic netCDF file format in its 64-bit data variant,
// CDF-5: named dimensions, attributes, variables of every classic type, and records
// appended one by one, so that what is in memory is one record however long the file.
//
// The format is the one published by Unidata, "NetCDF Classic Format Specification"
// (NetCDF User's Guide, appendix "File Format Specifications"), which gives it as a
// grammar in BNF, with the extension to 64-bit sizes and unsigned types by Liao and
// others, "CDF-5 file format specification" (PnetCDF project, Argonne National
// Laboratory and Northwestern University). Numbers are big-endian; names, attributes
// and slabs are padded to four bytes.
//
// Left out: rewriting a file, reading (package cdftest reads, for tests), and the older
// variants.
package cdf
