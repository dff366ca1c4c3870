package mark

import "math"

// Edge says that a mark lies near enough to an object to be taken for it.
type Edge struct {
	Object, Mark int
	Distance     float64 // metres
}

// Pair gives every object at most one mark and every mark at most one object: the
// most pairs that can be made and, of all ways to make so many, the one whose
// distances add up to least. It returns the mark of each object, -1 for none.
//
// Pairs are added one by one along the cheapest path that changes others to make
// room (successive shortest paths; Ahuja, Magnanti and Orlin, Network Flows, 1993,
// 9.7, from memory), which keeps the sum least at every number of pairs. Which of
// two equal ways is taken depends on the order of the edges alone.
func Pair(objects, marks int, edges []Edge) []int {
	of := make([]int, objects) // mark of an object
	to := make([]int, marks)   // object of a mark
	by := make([]int, marks)   // edge that a path came to a mark by
	way := make([]float64, objects)
	for i := range of {
		of[i] = -1
	}
	for j := range to {
		to[j] = -1
	}
	paired := func(e Edge) bool { return of[e.Object] == e.Mark }
	for {
		// The shortest way from any free object to each object, where going on from a
		// mark to the object that has it takes that pair's distance back.
		cost := make([]float64, marks)
		for i := range way {
			way[i] = math.Inf(1)
			if of[i] < 0 {
				way[i] = 0
			}
		}
		for j := range cost {
			cost[j], by[j] = math.Inf(1), -1
		}
		for changed := true; changed; {
			changed = false
			for n, e := range edges {
				if paired(e) || !(way[e.Object]+e.Distance < cost[e.Mark]-1e-9) {
					continue
				}
				cost[e.Mark], by[e.Mark], changed = way[e.Object]+e.Distance, n, true
				if holder := to[e.Mark]; holder >= 0 {
					way[holder] = cost[e.Mark] - distanceOf(edges, holder, e.Mark)
				}
			}
		}
		best := -1
		for j := range cost {
			if to[j] < 0 && by[j] >= 0 && (best < 0 || cost[j] < cost[best]) {
				best = j
			}
		}
		if best < 0 {
			return of
		}
		for j := best; j >= 0; {
			object := edges[by[j]].Object
			before := of[object]
			of[object], to[j] = j, object
			j = before
		}
	}
}

// distanceOf is the shortest edge between an object and a mark.
func distanceOf(edges []Edge, object, mark int) float64 {
	d := math.Inf(1)
	for _, e := range edges {
		if e.Object == object && e.Mark == mark {
			d = min(d, e.Distance)
		}
	}
	return d
}
