package talk

import "strings"

// offer offers a picture that has come to the folder, where nothing was typed.
func (t *talk) offer(line string) string {
	if strings.TrimSpace(line) != "" {
		return ""
	}
	return t.work.Arrived()
}

// pictured says what was found in a picture, and what can be said to it.
func (t *talk) pictured() {
	t.sayWhole("Seen: " + t.work.PicturedWords(t.work.State()))
	t.sayWhole("Enter takes both. Focuser elsewhere in the picture? Say where, as in: focuser 3. A place that is typed replaces it. Undo leaves the picture aside.")
}

// pictureHelp says how a picture answers, where it does.
func (t *talk) pictureHelp() {
	if _, err := t.work.State().PictureFace(); err != nil {
		return
	}
	if t.work.Bench != nil {
		t.sayWhole("Or: photo. A phone over the rim takes a picture, and the place is measured on it.")
	}
	t.sayWhole("Or: photo and the path of a picture, JPEG or PNG. Hold the phone over the rim and zoom. Use no flash.")
	if t.work.Waits() {
		t.sayWhole("Enter alone looks for a picture that has come to the folder.")
	}
}
