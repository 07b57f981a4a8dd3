package align

import (
	"path/filepath"
	"strings"

	"spotward/session"
	"spotward/session/words"
	"spotward/views/desk"
	"spotward/views/schematic"
	"spotward/views/terminal/frame"
	"spotward/views/theme"
)

// pictured returns what was found in a picture and waits to be agreed to.
func (s *Screen) pictured() (*desk.Pictured, bool) {
	p := s.Work.Pictured()
	return p, p != nil
}

// drawPictured draws what was found in a picture where it stands on the face, with
// the focuser where it is taken to be, to be agreed to.
func (s *Screen) drawPictured(p *frame.Page, typed string) {
	p.Face(p.Sizes.Face, s.FaceSpec(p.Sizes, typed))
	st := s.drawn(typed)
	f := p.Flow(p.Column)
	f.Say(theme.Head, capital(s.Work.PicturedWords(st)))
	f.Skip(1)
	f.Item(theme.Act, frame.Pad("Enter", 8), theme.Label, "takes both: the place and the focuser")
	f.Item(theme.Act, frame.Pad("arrows", 8), theme.Label, "turn the focuser to where it is in the picture")
	f.Item(theme.Act, frame.Pad("4 12", 8), theme.Label, "a place that is typed replaces it")
	f.Item(theme.Act, frame.Pad("undo", 8), theme.Label, "leaves the picture aside")
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// pictureMark is what was found in a picture, on the face.
func (s *Screen) pictureMark() *schematic.Mark {
	p, ok := s.pictured()
	if !ok {
		return nil
	}
	return &schematic.Mark{At: p.Sight.At, Word: "picture"}
}

// pictureEcho understands a line that names a picture while it is typed.
func pictureEcho(typed string) (string, bool) {
	path, ok := desk.PhotoPath(typed)
	switch {
	case !ok:
		return "", false
	case path == "":
		return "a picture", true
	}
	return "the picture " + words.OneLine(filepath.Base(path)), true
}

// pictureHint says, where nothing is typed, that a picture is an answer too.
func pictureHint(st session.State, practising bool) string {
	_, err := st.PictureFace()
	switch {
	case err != nil:
		return ""
	case practising:
		return "or photo: a phone's picture"
	}
	return "or drop a picture here"
}

// Waits reports whether a picture that comes to a folder would be offered.
func (s *Screen) Waits() bool { return s.Work.Waits() }

// Arrived offers a picture that has come, in words; "" for none.
func (s *Screen) Arrived() string { return s.Work.Arrived() }
