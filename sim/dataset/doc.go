// Package dataset makes sets of labelled data: many sessions of exercises, each with
// seeds and values of its own, flown by the mate and handed over as pings, pictures with
// their labels and tables, with the truth beside them.
//
// A set is a [setspec.Spec] and a folder for every scene of it. A scene is a function of the spec
// and the engine alone, so that it may be made at any time and on any core, and made again
// to the same bytes ([setspec.Scene.Identity]). What is said of the whole set (its lists, its
// splits, its card) is made last, from what the scenes say of themselves.
//
// Everything is synthetic, free for any use, and no evidence of anything at sea.
//
// Within lie setspec (what a set is made from), cdf (netCDF files), zarr (the same compressed), pingfile (labelled pings in them), coco (annotations of
// pictures), tiles (the pictures), parquet (files of tables), tables (of pings and of objects),
// rasters (both on a grid), texture (co-occurrence) and figure (plots of what records are like).
package dataset
