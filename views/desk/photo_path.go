package desk

import (
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"spotward/session/reading"
)

// PhotoPath understands a line that names a picture: the word photo and a path, the
// word alone, or a path that a terminal has typed because a file was dropped on it.
// The path is "" for the word alone.
func PhotoPath(text string) (path string, ok bool) {
	text = strings.TrimSpace(text)
	if reading.Command(text) == "photo" {
		return "", true
	}
	if word := "photo "; len(text) > len(word) && strings.EqualFold(text[:len(word)], word) {
		return unquoted(text[len(word):]), true
	}
	if path := unquoted(text); isDropped(text) && picturesEndIn[strings.ToLower(filepath.Ext(path))] {
		return path, true
	}
	return "", false
}

// isDropped reports whether a line begins as a path does that was dropped on a
// terminal: nothing that is said of a spot does.
func isDropped(text string) bool {
	for _, begins := range []string{"/", "~/", "./", "../", `\\`, `"`, "'", "& '", "file:"} {
		if strings.HasPrefix(text, begins) {
			return true
		}
	}
	return len(text) > 2 && text[1] == ':' && (text[2] == '\\' || text[2] == '/')
}

// picturesEndIn is how the names of pictures end, of those as well that cannot be
// read: they are named then.
var picturesEndIn = endings("jpg jpeg jpe jfif png heic heif avif webp gif bmp tif tiff dng cr2 cr3 nef arw raf orf rw2 jxl jp2 mov mp4")

func endings(list string) map[string]bool {
	m := map[string]bool{}
	for _, e := range strings.Fields(list) {
		m["."+e] = true
	}
	return m
}

// unquoted returns the path that a terminal has typed: in quotes, with escaped
// characters, or as a file's address.
func unquoted(text string) string {
	text = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(text), "& ")) // as one shell wants it
	if n := len(text); n >= 2 && (text[0] == '"' || text[0] == '\'') && text[n-1] == text[0] {
		text = text[1 : n-1]
	} else if !onDrive(text) {
		text = unescaped(text)
	}
	if u, err := url.Parse(text); err == nil && strings.EqualFold(u.Scheme, "file") {
		text = u.Path
		if len(text) > 3 && text[0] == '/' && onDrive(text[1:]) {
			text = text[1:]
		}
	}
	if rest, ok := strings.CutPrefix(text, "~/"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			text = filepath.Join(home, rest)
		}
	}
	return text
}

// onDrive reports whether a path's backslashes part folders: they escape nothing.
func onDrive(text string) bool {
	return strings.HasPrefix(text, `\\`) || len(text) > 2 && text[1] == ':' && (text[2] == '\\' || text[2] == '/')
}

// unescaped takes away the backslashes before what a shell would not take as it is.
func unescaped(text string) string {
	if filepath.Separator == '\\' || !strings.Contains(text, `\`) {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == '\\' && i+1 < len(text) {
			i++
		}
		b.WriteByte(text[i])
	}
	return b.String()
}
