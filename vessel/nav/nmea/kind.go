package nmea

import (
	"fmt"
	"slices"
	"strings"

	"dryline/vessel/nav"
)

// Kind is a kind of sentence, by its three letters.
type Kind string

// The kinds of sentences.
const (
	GGA Kind = "GGA"
	RMC Kind = "RMC"
	VTG Kind = "VTG"
	ZDA Kind = "ZDA"
	HDT Kind = "HDT"
	ROT Kind = "ROT"
	DPT Kind = "DPT"
	DBT Kind = "DBT"
	MWV Kind = "MWV" // two sentences
	XDR Kind = "XDR" // several
)

// Kinds are all of them, in the order they are best sent.
func Kinds() []Kind { return []Kind{GGA, RMC, VTG, ZDA, HDT, ROT, DPT, DBT, MWV, XDR} }

// ParseKinds reads a list of kinds with commas between them, in either case.
func ParseKinds(list string) ([]Kind, error) {
	known := Kinds()
	var kinds []Kind
	for name := range strings.SplitSeq(list, ",") {
		k := Kind(strings.ToUpper(strings.TrimSpace(name)))
		if !slices.Contains(known, k) {
			return nil, fmt.Errorf("unknown sentence %q (want some of %s)", name, Join(known))
		}
		if !slices.Contains(kinds, k) {
			kinds = append(kinds, k)
		}
	}
	return kinds, nil
}

// Join is a list of kinds as [ParseKinds] reads it.
func Join(kinds []Kind) string {
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = string(k)
	}
	return strings.Join(names, ",")
}

// Append appends the sentence or sentences of a kind.
func (s *Source) Append(dst []byte, k Kind, r *nav.Reading) []byte {
	switch k {
	case GGA:
		return s.AppendGGA(dst, r)
	case RMC:
		return s.AppendRMC(dst, r)
	case VTG:
		return s.AppendVTG(dst, r)
	case ZDA:
		return s.AppendZDA(dst, r)
	case HDT:
		return AppendHDT(dst, r)
	case ROT:
		return AppendROT(dst, r)
	case DPT:
		return AppendDPT(dst, r)
	case DBT:
		return AppendDBT(dst, r)
	case MWV:
		return AppendMWV(dst, r)
	case XDR:
		return AppendXDR(dst, r)
	}
	panic("nmea: unknown kind of sentence")
}
