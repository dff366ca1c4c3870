package record

import (
	"encoding/binary"
	"math"
	"reflect"
)

// flat is a struct of numbers, and of structs of numbers, as words of 64 bits in
// the order of its fields. What has no place in it, such as text, is left out and
// carried beside it.
type flat []uint64

// flatten appends the numbers of a struct.
func (f flat) flatten(v reflect.Value) flat {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f = f.flatten(v.Field(i))
		}
	case reflect.Float64:
		f = append(f, math.Float64bits(v.Float()))
	case reflect.Int, reflect.Int64:
		f = append(f, uint64(v.Int()))
	case reflect.Uint8, reflect.Uint16, reflect.Uint64:
		f = append(f, v.Uint())
	case reflect.Bool:
		b := uint64(0)
		if v.Bool() {
			b = 1
		}
		f = append(f, b)
	}
	return f
}

// restore sets the numbers of a struct and returns the words that follow.
func (f flat) restore(v reflect.Value) flat {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f = f.restore(v.Field(i))
		}
		return f
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(f[0]))
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(f[0]))
	case reflect.Uint8, reflect.Uint16, reflect.Uint64:
		v.SetUint(f[0])
	case reflect.Bool:
		v.SetBool(f[0] != 0)
	default:
		return f
	}
	return f[1:]
}

// appendChanges packs f as its difference from another of the same length: a bit
// for each word that says whether it differs, and those that do. Displays hold
// their last value for most of the time.
func (f flat) appendChanges(dst []byte, from flat) []byte {
	mask := len(dst)
	dst = append(dst, make([]byte, (len(f)+7)/8)...)
	for i, w := range f {
		if w != from[i] {
			dst[mask+i/8] |= 1 << (i % 8)
			dst = binary.LittleEndian.AppendUint64(dst, w)
		}
	}
	return dst
}

// readChanges changes f by what was packed and returns what follows.
func (f flat) readChanges(src []byte) ([]byte, error) {
	size := (len(f) + 7) / 8
	if len(src) < size {
		return nil, errDamaged
	}
	mask, src := src[:size], src[size:]
	for i := range f {
		if mask[i/8]>>(i%8)&1 == 0 {
			continue
		}
		if len(src) < 8 {
			return nil, errDamaged
		}
		f[i], src = binary.LittleEndian.Uint64(src), src[8:]
	}
	return src, nil
}
