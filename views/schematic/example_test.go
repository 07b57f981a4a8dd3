package schematic_test

import (
	"fmt"

	"spotward/views/schematic"
	"spotward/views/theme"
)

// A bar past its post says too much without a colour.
func ExampleCanvas_Bar() {
	c := schematic.New(30, 1, schematic.Options{Glyphs: schematic.ASCII})
	c.Text(0, 0, theme.Label, "axis")
	c.Bar(6, 0, 20, schematic.BarSpec{Value: 2.8, Allowed: 1.1, Full: 4, Role: theme.Ink})
	fmt.Println(c.String(theme.Palette{}))
	// Output:
	// axis  ======|=======------
}
