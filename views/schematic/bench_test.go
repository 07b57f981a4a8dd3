package schematic

import (
	"testing"

	"spotward/views/theme"
)

// BenchmarkScreen draws everything that stands on the side by side screen, and
// writes it out.
func BenchmarkScreen(b *testing.B) {
	g, p := wide(), theme.New(theme.Dark, theme.Colours256)
	b.ReportAllocs()
	for b.Loop() {
		_ = mockScreen(g, Options{}).String(p)
	}
}

// BenchmarkLines writes out a screen that is already drawn.
func BenchmarkLines(b *testing.B) {
	c, p := mockScreen(wide(), Options{}), theme.New(theme.Dark, theme.Colours256)
	b.ReportAllocs()
	for b.Loop() {
		_ = c.String(p)
	}
}
