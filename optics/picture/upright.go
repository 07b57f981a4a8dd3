package picture

import (
	"image"
	"image/color"
)

// Upright is a picture whose file says how it is to be turned. Orientation is
// the tag of that name: 1 (or 0) as it is, 2 mirrored left to right, 3 turned by
// half, 4 mirrored top to bottom, 5 mirrored over the diagonal from the upper
// left, 6 turned a quarter clockwise, 7 mirrored over the other diagonal, 8
// turned a quarter anticlockwise (CIPA DC-008, Exif 2.32, 4.6.4).
type Upright struct {
	Image       image.Image
	Orientation int
}

// ColorModel returns the picture's own.
func (u Upright) ColorModel() color.Model { return u.Image.ColorModel() }

// Bounds returns those of the upright picture, from 0, 0.
func (u Upright) Bounds() image.Rectangle {
	b := u.Image.Bounds()
	if u.onItsSide() {
		return image.Rect(0, 0, b.Dy(), b.Dx())
	}
	return image.Rect(0, 0, b.Dx(), b.Dy())
}

// At returns the colour at a place of the upright picture.
func (u Upright) At(x, y int) color.Color {
	b := u.Image.Bounds()
	fx, fy := u.from(x, y, b.Dx(), b.Dy())
	return u.Image.At(b.Min.X+fx, b.Min.Y+fy)
}

func (u Upright) onItsSide() bool { return u.Orientation >= 5 && u.Orientation <= 8 }

// from returns which pixel of the file, w × h, is at x, y of the upright picture.
func (u Upright) from(x, y, w, h int) (int, int) {
	switch u.Orientation {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return y, h - 1 - x
	case 7:
		return w - 1 - y, h - 1 - x
	case 8:
		return w - 1 - y, x
	}
	return x, y
}

func (u Upright) turned(p plane) plane {
	if u.Orientation < 2 || u.Orientation > 8 {
		return p
	}
	out := newPlane(p.w, p.h)
	if u.onItsSide() {
		out = newPlane(p.h, p.w)
	}
	for y := range out.h {
		to := out.row(y)
		for x := range to {
			fx, fy := u.from(x, y, p.w, p.h)
			to[x] = p.v[fy*p.w+fx]
		}
	}
	return out
}
