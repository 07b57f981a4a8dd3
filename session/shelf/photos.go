package shelf

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"spotward/session/event"
	"spotward/session/journal"
)

// photosDir has a folder for each session of which pictures were kept. No pack
// takes it along.
const photosDir = "photos"

// KeepPhoto keeps a copy of a picture that was a reading of session id, and returns
// its path. The name is made of the picture's hash.
func (l *Shelf) KeepPhoto(id string, of event.Picture, data []byte) (string, error) {
	const enough = 16 // digits, among the pictures of a session
	if !journal.ValidID(id) || len(of.SHA256) < enough {
		return "", errors.New("a picture is saved with a session")
	}
	ending := ".jpg"
	if strings.EqualFold(filepath.Ext(of.Name), ".png") {
		ending = ".png"
	}
	dir := l.path(photosDir, id)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", journal.CannotKeep("the picture", err)
	}
	path := filepath.Join(dir, of.SHA256[:enough]+ending)
	if err := writeWhole(path, data); err != nil {
		return "", journal.CannotKeep("the picture", err)
	}
	return path, nil
}
