// Package tables makes the tables of a scene: a row for every logged ping, belief and truth
// side by side, and one for every object. The columns of pings are the variables of the
// ping files by the same names, with the scene, its split and the line before them, so that
// the tables of many scenes can be read as one. What is not known is NaN, a bottom that is
// not there -1.
package tables
