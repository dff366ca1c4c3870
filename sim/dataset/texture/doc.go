// Package texture measures the texture of a picture by how often grey levels stand beside
// each other: the co-occurrence matrices of R. M. Haralick, K. Shanmugam and I. Dinstein,
// "Textural Features for Image Classification", IEEE Transactions on Systems, Man, and
// Cybernetics SMC-3(6), 610-621, 1973, symmetric as there, and the features that are most
// in use: their f1 (angular second moment), f2 (contrast), f3 (correlation), f5 (inverse
// difference moment, often called homogeneity) and f9 (entropy).
package texture
