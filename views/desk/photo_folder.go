package desk

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"spotward/session"
)

// pictures is where pictures come to, and which were there when the question was
// asked.
type pictures struct {
	folder string // "": none is looked into
	keep   bool   // a copy of each that was a reading
	were   map[pictureFile]bool
}

// pictureFile is a file as it stands in its folder: one that is still being copied
// is another one later.
type pictureFile struct {
	path  string
	bytes int64
	from  time.Time // when it was last written, as it says
}

func (d *Desk) pictures() pictures {
	p := pictures{folder: d.Photos, keep: d.KeepPhotos}
	p.were = p.now()
	return p
}

// now returns the pictures that are in the folder.
func (p pictures) now() map[pictureFile]bool {
	if p.folder == "" {
		return nil
	}
	are := map[pictureFile]bool{}
	entries, _ := os.ReadDir(p.folder) // a folder that is away for a while has none
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") || !picturesEndIn[strings.ToLower(filepath.Ext(e.Name()))] {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() {
			are[pictureFile{filepath.Join(p.folder, e.Name()), info.Size(), info.ModTime()}] = true
		}
	}
	return are
}

// nextPicture goes on to the next question: what was found belonged to the one
// before, and a picture that is there by now answers no question to come. What
// two pictures are to tell holds on as long as nothing was asked anew.
func (w *Work) nextPicture(before session.State) {
	w.pictured, w.offered, w.were = nil, nil, w.now()
	if before.Looks != w.State().Looks || before.Stage().ID != w.State().Stage().ID {
		w.either = nil
	}
}

// Waits reports whether a picture that comes to the folder would be offered.
func (w *Work) Waits() bool {
	if w.folder == "" || w.pictured != nil || w.Bench != nil && w.State().Told() != nil {
		return false
	}
	_, err := w.State().PictureFace()
	return err == nil
}

// Arrived looks for a picture that has come to the folder since the question was
// asked, and offers the newest in words; "" where none has come since the last
// time.
func (w *Work) Arrived() string {
	if !w.Waits() {
		return ""
	}
	var come []pictureFile
	now := w.now()
	for f := range now {
		if !w.were[f] {
			come = append(come, f)
		}
	}
	if len(come) == 0 {
		return ""
	}
	newest := slices.MaxFunc(come, func(a, b pictureFile) int {
		return cmp.Or(a.from.Compare(b.from), strings.Compare(a.path, b.path))
	})
	w.were, w.offered = now, &newest
	return w.OfferWords()
}

// OfferWords says which picture has come; "" for none.
func (w *Work) OfferWords() string {
	if w.offered == nil {
		return ""
	}
	return fmt.Sprintf("A picture from %s. Enter reads it.", w.offered.from.Local().Format("15:04"))
}
