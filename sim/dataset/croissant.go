package dataset

import (
	"fmt"
	"io"

	"dryline/sim/product/folder"
	"dryline/sim/provenance"
)

// ownFiles are those of a set itself that are described.
var ownFiles = map[string]struct{ mime, what string }{
	"scenes.csv":  {"text/csv", "a row for every scene"},
	"splits.json": {"application/json", "the scenes of every split"},
	likenessFile:  {"application/json", "what the records are like, beside theory"},
}

// croissant describes the set by the Croissant format 1.0 (MLCommons, "Croissant Format
// Specification", 2024): its files as sets of files, and the table of scenes as records.
// Files of the set have their checksums, as the format asks, from what is written by now;
// those of all others are in manifest.json, which is written after this and so has none here.
func (w *Whole) croissant(out io.Writer, own []folder.Entry) error {
	type m = map[string]any
	context := m{
		"@language": "en", "@vocab": "https://schema.org/", "sc": "https://schema.org/", "cr": "http://mlcommons.org/croissant/",
		"dct": "http://purl.org/dc/terms/", "rai": "http://mlcommons.org/croissant/RAI/",
		"citeAs": "cr:citeAs", "column": "cr:column", "conformsTo": "dct:conformsTo", "extract": "cr:extract", "field": "cr:field",
		"fileProperty": "cr:fileProperty", "fileObject": "cr:fileObject", "fileSet": "cr:fileSet", "includes": "cr:includes", "key": "cr:key",
		"recordSet": "cr:recordSet", "source": "cr:source", "data": m{"@id": "cr:data", "@type": "@json"},
		"dataType": m{"@id": "cr:dataType", "@type": "@vocab"}, "format": "cr:format", "isLiveDataset": "cr:isLiveDataset",
		"jsonPath": "cr:jsonPath", "md5": "cr:md5", "parentField": "cr:parentField", "path": "cr:path", "references": "cr:references",
		"regex": "cr:regex", "repeated": "cr:repeated", "replace": "cr:replace", "separator": "cr:separator", "subField": "cr:subField", "transform": "cr:transform",
	}
	var files []m
	for _, f := range own {
		if of, there := ownFiles[f.Name]; there {
			files = append(files, m{"@type": "cr:FileObject", "@id": f.Name, "name": f.Name, "description": of.what, "contentUrl": f.Name,
				"contentSize": fmt.Sprintf("%d B", f.Bytes), "encodingFormat": of.mime, "sha256": f.Hash})
		}
	}
	set := func(id, glob, mime, what string) m {
		return m{"@type": "cr:FileSet", "@id": id, "name": id, "description": what, "includes": ScenesFolder + "/*/" + glob, "encodingFormat": mime}
	}
	files = append(files,
		set("truth", "truth.geojson", "application/geo+json", "what lies on the floor of a scene"),
		set("contacts", "contacts.geojson", "application/geo+json", "what the desk took for objects"),
		set("sessions", "session.jsonl", "application/jsonl", "the log by which a scene can be flown again"),
	)
	if w.Spec.Products.Pings {
		files = append(files, set("pings", "pings-*.nc", "application/netcdf", "labelled pings of a line and channel"))
	}
	if w.Spec.Products.Zarr {
		files = append(files, set("pings-zarr", "pings-*.zarr.zip", "application/zip", "labelled pings of a line and channel as Zarr"))
	}
	if w.Spec.Products.Images {
		files = append(files, set("tiles", "tile-*.png", "image/png", "tiles of waterfalls"), set("annotations", "coco.json", "application/json", "COCO annotations of the tiles of a scene"))
	}
	if w.Spec.Products.Mosaic {
		files = append(files, set("mosaic-tiles", "mosaic-*.png", "image/png", "tiles of the mosaic"), set("mosaic-annotations", "coco-mosaic.json", "application/json", "COCO annotations of the tiles of a scene's mosaic"))
	}
	if w.Spec.Products.Rasters {
		files = append(files, set("rasters", "*.tif", "image/tiff; application=geotiff; profile=cloud-optimized", "the record on a grid, and what is true on it"))
	}
	if w.Spec.Products.Tables {
		files = append(files, set("ping-tables", "pings.parquet", "application/vnd.apache.parquet", "a row for every ping"), set("object-tables", "objects.parquet", "application/vnd.apache.parquet", "a row for every object"))
	}
	var fields []m
	for _, f := range []struct{ name, kind, what string }{
		{"scene", "sc:Text", "name of the scene and of its folder"}, {"split", "sc:Text", "train, val or test"}, {"exercise", "sc:Text", "exercise flown"},
		{"seed", "sc:Integer", "seed of everything left to chance"}, {"background", "sc:Boolean", "whether nothing but the sea floor is there"},
		{"lines", "sc:Integer", "lines logged"}, {"pings", "sc:Integer", "pings logged"}, {"line_metres", "sc:Float", "length of the lines"},
		{"objects", "sc:Integer", "objects that lie there"}, {"values", "sc:Text", "what was drawn for the scene"},
	} {
		fields = append(fields, m{
			"@type": "cr:Field", "@id": "scenes/" + f.name, "name": f.name, "description": f.what, "dataType": f.kind,
			"source": m{"fileObject": m{"@id": "scenes.csv"}, "extract": m{"column": f.name}},
		})
	}
	return writeJSON(out, m{
		"@context": context, "@type": "sc:Dataset", "conformsTo": "http://mlcommons.org/croissant/1.0",
		"name": w.Spec.Name, "description": w.Spec.Title + ". " + oneLine(w.Spec.Description) + " Synthetic: " + Caution + ". Every file is in manifest.json with its size and SHA-256.",
		"license": "https://spdx.org/licenses/" + provenance.Licence, "url": "urn:sha256:" + w.Spec.Hash, "datePublished": w.Spec.Published,
		"creator": m{"@type": "sc:Organization", "name": w.Spec.Creator}, "version": fmt.Sprintf("%d.0.0", provenance.Engine),
		"keywords": []string{"side-scan sonar", "synthetic data", "simulation", "sea floor"}, "isLiveDataset": false,
		"citeAs":             fmt.Sprintf("%s: %s. Synthetic data set, Dryline engine %d, spec %.12s.", w.Spec.Creator, w.Spec.Title, provenance.Engine, w.Spec.Hash),
		"rai:dataCollection": "made by a simulator from the exercises and seeds listed", "rai:dataCollectionType": "Synthetic",
		"rai:dataLimitations": Caution, "rai:machineAnnotationTools": fmt.Sprintf("Dryline engine %d: labels come of the same sums as the samples", provenance.Engine),
		"rai:personalSensitiveInformation": "none: place, vessel and objects are invented",
		"distribution":                     files,
		"recordSet":                        []m{{"@type": "cr:RecordSet", "@id": "scenes", "name": "scenes", "key": m{"@id": "scenes/scene"}, "field": fields}},
	})
}
