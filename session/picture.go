package session

import (
	"errors"
	"fmt"
	"strings"

	"spotward/optics"
	"spotward/session/event"
	"spotward/session/words"
)

// PictureFace returns the face of which a picture can be the answer to what is
// asked: the primary, or the laser's face with the ring's shadow on it. The error
// says in one line why none can.
func (s State) PictureFace() (optics.Face, error) { return s.pictureFace(s.Ask()) }

func (s State) pictureFace(ask Ask) (optics.Face, error) {
	switch {
	case ask.Want == WantReading && ask.Face == optics.FacePrimary:
		if !(s.Tel.RingOuterMM > s.Tel.RingInnerMM) {
			return "", errors.New("a picture needs the centre ring's size: put it into the scope's file, or say where the spot is")
		}
		return ask.Face, nil
	case ask.Step == StepShadow:
		if !(s.Tel.Target.FaceRadiusMM > s.Tel.Target.HoleRadiusMM) {
			return "", errors.New("a picture needs the laser's hole and face: put their sizes into the kit's file, or say where it is")
		}
		return ask.Face, nil
	}
	return "", errors.New("a picture can tell the spot on the primary or the ring's shadow: answer what is asked")
}

// bewarePhone is for whoever holds a phone over the open end.
const bewarePhone = "A phone over the rim: on its strap, where no red falls. Zoom, do not reach in; no flash. Red on the phone: laser off."

// longestName is how long a file's name may be, bytes, as file systems have it.
const longestName = 255

// onPicture checks a reading from a picture: that one can be read here, and that
// it was not read before. The same picture twice says no more than once.
func (s *State) onPicture(ev event.Event) error {
	p := ev.Picture
	if p == nil {
		return nil
	}
	if face, err := s.pictureFace(s.answering()); err != nil || face != ev.Face || ev.Saw != event.SawPlace || ev.Cov == nil {
		return errors.New("a picture says where the spot on the primary or the ring's shadow is, and nothing else")
	}
	if p.Name == "" || len(p.Name) > longestName || words.OneLine(p.Name) != p.Name || strings.ContainsAny(p.Name, `/\`) || p.Bytes <= 0 || !isSHA256(p.SHA256) {
		return errors.New("a picture is told by its file's name, size and SHA-256")
	}
	for n := s.history.prev; n != nil; n = n.prev {
		if was := n.event.Picture; was != nil && was.SHA256 == p.SHA256 {
			return fmt.Errorf("%s was read before: take a new picture", p.Name)
		}
	}
	return nil
}

func isSHA256(hex string) bool {
	return len(hex) == 64 && strings.Trim(hex, "0123456789abcdef") == ""
}
