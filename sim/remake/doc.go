// Package remake works up a survey again from what the recorder kept: the desk's
// work after the line is closed, when all of the record is there to learn from.
//
// It sees observations only: samples, readings, settings, and what the desk made of
// them.
package remake
