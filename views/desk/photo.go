package desk

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"spotward/optics/picture"
	"spotward/session"
	"spotward/session/answer"
	"spotward/session/event"
	"spotward/session/photo"
	"spotward/session/reading"
	"spotward/session/words"
)

// Pictured is what was found in a picture, until it is agreed to: nothing is
// recorded before that.
type Pictured struct {
	Sight picture.Sight
	Of    event.Picture
	data  []byte
}

// errWhichPicture says what the word alone lacks.
var errWhichPicture = errors.New("which picture? photo and its path, as in: photo IMG_2041.jpg; or drop the file on this window")

// errTurnFirst says that there is nothing to take a picture of yet.
var errTurnFirst = errors.New("the turn comes first: Enter when it is made, then the picture")

// Pictured returns what was found in a picture and not agreed to yet, nil for
// nothing.
func (w *Work) Pictured() *Pictured { return w.pictured }

// photoLine takes a line that is about a picture: one to be read, or the answer to
// what was found in it. Nothing is recorded but by a yes.
func (w *Work) photoLine(text string) (echo string, ok bool, err error) {
	path, is := PhotoPath(text)
	switch {
	case is:
		echo, err = w.readPhoto(path)
		return echo, true, err
	case w.pictured != nil:
		return w.agree(text)
	case strings.TrimSpace(text) == "" && w.offered != nil:
		echo, err = w.readPhoto(w.offered.path)
		return echo, true, err
	}
	return "", false, nil
}

// agree takes the answer to what was found in a picture: Enter takes it, a place
// of the focuser first turns the picture to it, undo leaves it aside. Any other
// line is an answer in its place.
func (w *Work) agree(text string) (echo string, ok bool, err error) {
	word := reading.Command(text)
	switch word {
	case "u", "undo", "n", "no":
		w.pictured = nil
		return "the picture is left aside", true, nil
	}
	if word == "" || reading.SaysYes(text) {
		return w.takePicture(w.State())
	}
	typed, err := answer.Line(w.State(), text)
	if err != nil || len(typed.Events) != 1 || typed.Events[0].Kind != event.KindFocuser {
		return "", false, nil
	}
	turned, err := session.Apply(w.State(), typed.Events[0])
	if err != nil {
		return "", true, err
	}
	return w.takePicture(turned, typed.Events[0])
}

// takePicture sends what was found in a picture as the reading that it comes to in
// state s, after the events that lead to s.
func (w *Work) takePicture(s session.State, first ...event.Event) (string, bool, error) {
	p := *w.pictured
	typed := answer.Picture(s, photo.Reading(p.Sight, s.Tel, p.Of))
	if err := w.Send(append(first, typed.Events...)...); err != nil {
		return "", true, err
	}
	return typed.Echo + w.copied, true, nil
}

// keepPhoto keeps a copy of a picture that is a reading by now, where that is
// wanted. It says so, or what was in the way: the reading counts all the same.
func (w *Work) keepPhoto(of *event.Picture) string {
	p := w.pictured
	if !w.keep || of == nil || p == nil || p.Of != *of || w.library == nil || !w.Session.Kept() {
		return ""
	}
	path, err := w.library.KeepPhoto(w.State().ID, p.Of, p.data)
	if err != nil {
		return "; but " + err.Error()
	}
	return "; saved as " + filepath.Base(path)
}

// readPhoto reads a picture and keeps what was found in it, to be agreed to.
func (w *Work) readPhoto(path string) (string, error) {
	if _, err := w.State().PictureFace(); err != nil {
		return "", err
	}
	name, data, err := w.photoData(path)
	if err != nil {
		return "", err
	}
	p, err := w.lookAt(name, data)
	if err != nil {
		return "", err
	}
	w.pictured, w.offered = &p, nil
	return w.PicturedWords(w.State()), nil
}

// photoData returns a picture's name and bytes: of the file at path, or without
// one the one that was offered, or in practice one of the virtual telescope.
func (w *Work) photoData(path string) (name string, data []byte, err error) {
	if path == "" && w.offered != nil {
		path = w.offered.path
	}
	if path != "" {
		data, err = ReadPicture(path)
		return filepath.Base(path), data, err
	}
	if w.Bench == nil {
		return "", nil, errWhichPicture
	}
	if w.State().Told() != nil {
		return "", nil, errTurnFirst
	}
	return w.Bench.Photo(w.State())
}

// lookAt returns what a picture shows. Two that fit are settled by a second picture
// from elsewhere; else the error says what is missing and what helps.
func (w *Work) lookAt(name string, data []byte) (Pictured, error) {
	s := w.State()
	face, err := s.PictureFace()
	if err != nil {
		return Pictured{}, err
	}
	of := photo.Of(name, data)
	seen, err := photo.Look(data, face, s.Tel, s.Scope.RulerPart(face))
	if err != nil {
		return Pictured{}, err
	}
	if seen.Missing == picture.Which {
		if was := w.either; was != nil && was.Of.SHA256 != of.SHA256 {
			seen = was.Sight.With(seen)
		}
		w.either = &Pictured{Sight: seen, Of: of}
	}
	if !seen.Found() {
		return Pictured{}, errors.New(photo.Help(seen.Missing))
	}
	return Pictured{seen, of, data}, nil
}

// Photo returns the reading that the picture at path comes to, for a face at which
// nobody can be asked; the focuser is taken to be where it is said to be.
func (w *Work) Photo(path string) (event.Event, error) {
	s := w.State()
	if _, err := s.PictureFace(); err != nil {
		return event.Event{}, err
	}
	data, err := ReadPicture(path)
	if err != nil {
		return event.Event{}, err
	}
	p, err := w.lookAt(filepath.Base(path), data)
	if err != nil {
		return event.Event{}, err
	}
	w.pictured = &p
	return answer.Picture(s, photo.Reading(p.Sight, s.Tel, p.Of)).Events[0], nil
}

// PicturedWords says what was found in a picture as a reading, and where the
// focuser is taken to be seen: "4:00, 6.3 mm from the ring's centre, from the
// picture; focuser at 2:00?" s has the focuser where it is drawn.
func (w *Work) PicturedWords(s session.State) string {
	if w.pictured == nil {
		return ""
	}
	sight := w.pictured.Sight
	focuser := s.Tel.FocuserDial(s.Tel.Station(sight.Face))
	return fmt.Sprintf("%s; focuser at %s?", words.PictureText(sight.Face, sight.At), words.ClockText(focuser))
}
