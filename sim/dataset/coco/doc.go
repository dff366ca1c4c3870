// Package coco writes annotations of pictures as the COCO data format has them: images,
// annotations with boxes, polygons and run lengths, categories.
//
// Sources: the format's own page, "COCO: Common Objects in Context, Data format", and for
// the run lengths the reference code of its interface (cocodataset/cocoapi,
// common/maskApi.c): columns from the left, each from the top, lengths of runs of 0 and 1
// in turn beginning with 0; as text five bits a character from 48 on, the sixth says that
// more follow, and from the fourth run on the difference to the run two before.
//
// What a sonar needs and the format has no words for stands in further fields, which its
// readers pass over: role, object_id and linked join an object, its echo and its shadow.
package coco
