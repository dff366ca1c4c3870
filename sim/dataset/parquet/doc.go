// Package parquet writes small tables as Apache Parquet: columns of numbers, flags and text
// that all have a value in every row, in one row group, plainly encoded and compressed by
// gzip.
//
// Source: the Apache Parquet format, version 2 (apache/parquet-format: README, Encodings.md
// and parquet.thrift), with its headers in Thrift's compact protocol (apache/thrift,
// doc/specs/thrift-compact-protocol.md).
//
// It is written here because a whole library of the format makes the program take half as
// long again to build. The library reads what is written in the tests.
package parquet
