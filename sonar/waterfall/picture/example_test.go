package picture_test

import (
	"fmt"

	"dryline/sonar/waterfall/picture"
)

func ExampleDraw() {
	w := picture.Waterfall{Title: "Line 1", Channel: "455 kHz", RangeScale: 50}
	for range 200 {
		w.Port = append(w.Port, make([]uint8, 500))
		w.Starboard = append(w.Starboard, make([]uint8, 500))
	}
	// Without distances each ping takes one line of pixels.
	fmt.Println(picture.Draw(w, 800, 1000).Bounds().Dx())
	// Output: 800
}
