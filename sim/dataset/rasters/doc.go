// Package rasters draws a survey on one grid, with what is true of it, each as a Cloud
// Optimized GeoTIFF in UTM: what was recorded, where the desk takes it to lie, and the
// floor as it is. How far the two lie apart is the error of the desk.
//
// The mosaic is the plain mean of the counts that fall into a cell, as anybody would make it
// who neither levels nor chooses between lines; what a desk hands over is in the products of
// dryline run. Cut in tiles it has annotations of its own: objects and shadows where they were
// recorded, by the labels of the samples.
package rasters
