// Package photo takes the bytes of a picture's file to what the picture shows.
// Whoever has a file reads it and hands its bytes in; nothing is opened here.
package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"spotward/optics"
	"spotward/optics/picture"
)

// What is read at most. A phone's picture has 12 million pixels in 4 MB.
const (
	MostBytes  = 40 << 20
	MostPixels = 50_000_000
)

// mostScans bounds how often a JPEG goes over the picture. Cameras and programs
// write some ten scans at most; a few bytes more make another.
const mostScans = 100

// mostScanned is how many pixels all scans together may go over.
const mostScanned = 1_000_000_000

// Look finds the spot on the primary, or the ring's shadow on the laser's face
// with face optics.FaceTarget, in a picture's file. rulerPart is how well the sizes
// of ring or hole are known, 1σ as a part of them, 0 where they were measured.
// The error says in one line what of the file cannot be read, and what to do.
func Look(data []byte, face optics.Face, t optics.Telescope, rulerPart float64) (picture.Sight, error) {
	img, err := Decode(data)
	if err != nil {
		return picture.Sight{}, err
	}
	if face == optics.FaceTarget {
		return picture.FindShadow(img, t, rulerPart), nil
	}
	return picture.FindSpot(img, t, rulerPart), nil
}

// Decode reads a JPEG or PNG, upright as its file says.
func Decode(data []byte) (picture.Upright, error) {
	if err := TooLarge(int64(len(data))); err != nil {
		return picture.Upright{}, err
	}
	switch kind := kindOf(data); kind {
	case "JPEG":
		return decodeJPEG(data)
	case "PNG":
		return decode(data, "PNG", png.DecodeConfig, png.Decode, pngOrientation)
	case "":
		return picture.Upright{}, errors.New("this is no picture: give a JPEG or PNG file")
	case "nothing":
		return picture.Upright{}, errors.New("this file is empty: copy the picture again")
	case "video":
		return picture.Upright{}, errors.New("this is a video: take a single picture, as JPEG or PNG")
	default:
		return picture.Upright{}, fmt.Errorf("this is a %s file, which spotward cannot read: save the picture as JPEG, or set the camera to JPEG", kind)
	}
}

// TooLarge says that a file of so many bytes is too large, nil if it is not.
func TooLarge(bytes int64) error {
	if bytes > MostBytes {
		return fmt.Errorf("this file is %d MB and at most %d can be read: save the picture smaller", bytes>>20, MostBytes>>20)
	}
	return nil
}

func decodeJPEG(data []byte) (picture.Upright, error) {
	scans := jpegScans(data)
	if c, err := jpeg.DecodeConfig(bytes.NewReader(data)); err == nil {
		if scans > mostScans || int64(scans)*int64(c.Width)*int64(c.Height) > mostScanned {
			return picture.Upright{}, fmt.Errorf("this JPEG draws its picture %d times over: save it again as a plain JPEG", scans)
		}
	}
	return decode(data, "JPEG", jpeg.DecodeConfig, jpeg.Decode, jpegOrientation)
}

func decode(data []byte, kind string, config func(io.Reader) (image.Config, error), whole func(io.Reader) (image.Image, error), orientation func([]byte) int) (picture.Upright, error) {
	c, err := config(bytes.NewReader(data))
	if err != nil {
		return picture.Upright{}, unread(data, kind, err)
	}
	if c.Width <= 0 || c.Height <= 0 || int64(c.Width)*int64(c.Height) > MostPixels {
		return picture.Upright{}, fmt.Errorf("this picture is %d by %d pixels and at most %d million can be read: save it smaller", c.Width, c.Height, MostPixels/1_000_000)
	}
	img, err := whole(bytes.NewReader(data))
	if err != nil {
		return picture.Upright{}, unread(data, kind, err)
	}
	return picture.Upright{Image: img, Orientation: orientation(data)}, nil
}

// ends are what the last bytes of a whole file are.
var ends = map[string]string{"JPEG": "\xff\xd9", "PNG": "IEND"}

func unread(data []byte, kind string, err error) error {
	var jpegOther jpeg.UnsupportedError
	var pngOther png.UnsupportedError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) || !bytes.Contains(data[max(0, len(data)-1000):], []byte(ends[kind])):
		return fmt.Errorf("this %s is cut off: copy the picture again", kind)
	case errors.As(err, &jpegOther) || errors.As(err, &pngOther):
		return fmt.Errorf("this %s is of a kind that spotward cannot read: save it again as a plain JPEG", kind)
	}
	return fmt.Errorf("this %s is damaged: copy the picture again, or take another", kind)
}
