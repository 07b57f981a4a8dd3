package practice

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"

	"spotward/optics"
	"spotward/optics/camera"
	"spotward/session"
)

// What a phone's picture is like, in the practice telescope's light.
const (
	photoWidth   = 1000
	photoHeight  = 750
	photoQuality = 90
	photoNoise   = 1.5 // levels of 255, 1σ
	photoTries   = 12  // places to hold it at, before a picture is taken of what there is
)

// Photo returns a picture of what one would see on the face that is asked for, as a
// phone would make it: a file's name and its bytes. Each is held a little
// differently.
func (b *Bench) Photo(s session.State) (name string, data []byte, err error) {
	face, err := s.PictureFace()
	if err != nil {
		return "", nil, err
	}
	v := b.Look(face)
	d := b.real.ToDial(face, v.Seen)
	dark := !v.Visible || v.Wall
	var h camera.Hold
	for range photoTries {
		b.photos++
		// By what was looked at so far as well, so that a session taken up again does
		// not hold it as before.
		held := b.world.Phone(s.Looks<<16+b.photos, d.Hour())
		h = camera.Hold{
			Width: photoWidth, Height: photoHeight, Hour: held.Hour, RollRad: held.RollRad,
			NoiseLevels: photoNoise, Seed: held.Seed, Dark: dark,
		}
		if dark || face == optics.FaceTarget || camera.InSight(b.real, d, h) {
			break
		}
	}
	var img *image.RGBA
	if face == optics.FaceTarget {
		img = camera.Target(b.real, d, h)
	} else {
		img = camera.Primary(b.real, d, h)
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: photoQuality}); err != nil {
		return "", nil, err
	}
	return fmt.Sprintf("practice-%d.jpg", s.Looks+1), file.Bytes(), nil
}
