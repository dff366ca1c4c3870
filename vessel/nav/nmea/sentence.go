package nmea

// MaxLength is how long a sentence may be, "$" and CR LF included, bytes.
const MaxLength = 82

// tail is how much of a sentence follows its fields.
const tail = len("*hh\r\n")

// Checksum is the exclusive or of the bytes between "$" and "*", both left out.
func Checksum(between []byte) byte {
	var sum byte
	for _, b := range between {
		sum ^= b
	}
	return sum
}

// begin appends the start of a sentence. address is talker and kind.
func begin(dst []byte, address string) []byte {
	dst = append(dst, '$')
	return append(dst, address...)
}

// end closes the sentence that begins at start.
func end(dst []byte, start int) []byte {
	const hex = "0123456789ABCDEF"
	sum := Checksum(dst[start+1:])
	return append(dst, '*', hex[sum>>4], hex[sum&15], '\r', '\n')
}
