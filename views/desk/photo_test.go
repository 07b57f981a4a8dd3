package desk_test

import (
	"bytes"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/optics"
	"spotward/optics/camera"
	"spotward/optics/virtual"
	"spotward/session"
	"spotward/session/event"
	"spotward/session/scope"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
	"spotward/views/desk"
)

// snap writes a picture of the built-in telescope's primary with its spot at a
// clock position.
func snap(t *testing.T, path string, hour, mm float64, seed uint64) {
	t.Helper()
	h := camera.Hold{Width: 480, Height: 360, Hour: hour + 6, FieldMM: 90, NoiseLevels: 1, Seed: seed}
	img := camera.Primary(scope.Builtin().Telescope(), optics.AtHour(hour, mm), h)
	var file bytes.Buffer
	require.NoError(t, jpeg.Encode(&file, img, &jpeg.Options{Quality: 90}))
	require.NoError(t, os.WriteFile(path, file.Bytes(), 0o644))
}

// looking is a session at its first look, with pictures coming to a folder.
func looking(t *testing.T, change func(*desk.Desk)) (w *desk.Work, data string) {
	t.Helper()
	data = t.TempDir()
	l, err := shelf.Open(data)
	require.NoError(t, err)
	d := &desk.Desk{Library: l, Now: time.Now}
	change(d)
	w, err = d.Align(scope.Builtin(), false)
	require.NoError(t, err)
	for _, line := range []string{"routine", "none", "still"} {
		_, err := w.Line(line)
		require.NoError(t, err)
	}
	return w, data
}

func lastReading(t *testing.T, w *desk.Work) event.Event {
	t.Helper()
	all := w.State().Events()
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].Kind == event.KindReading {
			return all[i]
		}
	}
	return event.Event{}
}

// What a picture shows is said, and nothing is recorded, before it is agreed to: by
// Enter, or with the focuser's true place. Or something else is said in its place.
func TestAPictureIsAgreedTo(t *testing.T) {
	sessiontest.Whole(t)
	path := filepath.Join(t.TempDir(), "IMG 1.jpg")
	snap(t, path, 4, 6.3, 1)
	offer := func() *desk.Work {
		w, _ := looking(t, func(*desk.Desk) {})
		before := len(w.State().Events())
		echo, err := w.Line("photo " + strings.ReplaceAll(path, " ", `\ `))
		require.NoError(t, err)
		assert.Equal(t, "4:00, 6.3 mm from the ring's centre, from the picture; focuser at 2:00?", echo)
		assert.Len(t, w.State().Events(), before)
		require.NotNil(t, w.Pictured())
		return w
	}
	t.Run("Enter", func(t *testing.T) {
		w := offer()
		echo, err := w.Line("")
		require.NoError(t, err)
		assert.Equal(t, "4:00, 6.3 mm from the ring's centre, from the picture", echo)
		ev := lastReading(t, w)
		require.NotNil(t, ev.Picture)
		assert.Equal(t, "IMG 1.jpg", ev.Picture.Name)
		assert.Nil(t, w.Pictured())
		_, err = w.Line("amount") // asked once a scope
		require.NoError(t, err)
		_, err = w.Line("photo '" + path + "'")
		require.NoError(t, err)
		_, err = w.Line("")
		assert.ErrorContains(t, err, "was read before")
	})
	t.Run("the focuser is elsewhere", func(t *testing.T) {
		w := offer()
		_, err := w.Line("focuser 10")
		require.NoError(t, err)
		assert.InDelta(t, 300, w.State().Tel.FocuserDeg, 1e-9)
		ev := lastReading(t, w)
		require.NotNil(t, ev.Picture)
		at := w.State().Tel.ToDial(optics.FacePrimary, optics.Seen{Right: ev.Right, Up: ev.Up})
		assert.InDelta(t, 4, at.Hour(), 0.05, "it is where the picture has it")
	})
	t.Run("something else is typed", func(t *testing.T) {
		w := offer()
		_, err := w.Line("5 20")
		require.NoError(t, err)
		assert.Nil(t, lastReading(t, w).Picture)
		assert.Nil(t, w.Pictured())
	})
	t.Run("a line that is not understood", func(t *testing.T) {
		w := offer()
		_, err := w.Line("flurb")
		require.Error(t, err)
		assert.NotNil(t, w.Pictured(), "it still waits")
	})
	t.Run("left aside", func(t *testing.T) {
		w := offer()
		before := len(w.State().Events())
		_, err := w.Line("undo")
		require.NoError(t, err)
		assert.Nil(t, w.Pictured())
		assert.Len(t, w.State().Events(), before)
	})
}

func TestAPictureThatIsNoReading(t *testing.T) {
	dir := t.TempDir()
	file := func(name, holds string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(holds), 0o644))
		return path
	}
	w, _ := looking(t, func(*desk.Desk) {})
	before := len(w.State().Events())
	for line, says := range map[string]string{
		"photo": "which picture?",
		"photo " + filepath.Join(dir, "none.jpg"): "there is no picture at",
		"photo " + dir:                    "is a folder",
		"photo " + file("a.jpg", "words"): "no picture",
		"'" + file("b.jpg", "") + "'":     "empty",
		"file://" + file("c.heic", "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"): "HEIC",
		"photo " + file("d.jpg", "\xff\xd8\xff\xe0"):                           "cut off",
	} {
		_, err := w.Line(line)
		assert.ErrorContains(t, err, says, line)
		assert.NotContains(t, err.Error(), "\n")
	}
	assert.Len(t, w.State().Events(), before)
	assert.Nil(t, w.Pictured())
	_, err := w.Line("dead")
	require.NoError(t, err)
	_, err = w.Line("photo " + dir)
	assert.ErrorContains(t, err, "can tell the spot on the primary")
}

// A picture that comes to the folder after the question is offered, once; those that
// were there before are not.
func TestAPictureThatCameIsOffered(t *testing.T) {
	sessiontest.Whole(t)
	come := t.TempDir()
	snap(t, filepath.Join(come, "old.jpg"), 4, 6, 1)
	w, data := looking(t, func(d *desk.Desk) { d.Photos, d.KeepPhotos = come, true })
	assert.True(t, w.Waits())
	assert.Empty(t, w.Arrived())
	snap(t, filepath.Join(come, "new.jpg"), 9, 12, 2)
	at := time.Date(2026, 3, 1, 20, 41, 0, 0, time.Local)
	require.NoError(t, os.Chtimes(filepath.Join(come, "new.jpg"), at, at))
	require.NoError(t, os.WriteFile(filepath.Join(come, "notes.txt"), []byte("x"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(come, ".part.jpg"), []byte("x"), 0o644))
	assert.Equal(t, "A picture from 20:41. Enter reads it.", w.Arrived())
	assert.Empty(t, w.Arrived(), "said once")
	echo, err := w.Line("")
	require.NoError(t, err)
	assert.Contains(t, echo, "9:00, 12 mm")
	assert.False(t, w.Waits())
	echo, err = w.Line("")
	require.NoError(t, err)
	assert.Contains(t, echo, "saved as ")
	of := lastReading(t, w).Picture
	require.NotNil(t, of)
	kept, err := os.ReadFile(filepath.Join(data, "photos", w.State().ID, of.SHA256[:16]+".jpg"))
	require.NoError(t, err)
	was, err := os.ReadFile(filepath.Join(come, "new.jpg"))
	require.NoError(t, err)
	assert.Equal(t, was, kept)
}

// Taken up again the reading is from the picture still; the journal says of the
// file its name alone, and no picture is copied that nobody wants kept.
func TestAPictureIsTakenUpAgain(t *testing.T) {
	sessiontest.Whole(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.jpg")
	snap(t, path, 4, 6.3, 1)
	w, data := looking(t, func(*desk.Desk) {})
	for _, line := range []string{path, ""} {
		_, err := w.Line(line)
		require.NoError(t, err)
	}
	id := w.State().ID
	w.Close()
	journal, err := os.ReadFile(filepath.Join(data, "journals", id+".jsonl"))
	require.NoError(t, err)
	assert.NotContains(t, string(journal), dir)
	assert.Contains(t, string(journal), `"picture":{"name":"a.jpg"`)
	assert.NoDirExists(t, filepath.Join(data, "photos"))
	l, err := shelf.Open(data)
	require.NoError(t, err)
	again, err := (&desk.Desk{Library: l, Now: time.Now}).TakeUp(id)
	require.NoError(t, err)
	defer again.Close()
	require.NotNil(t, again.State().OnPrimary().Picture)
	assert.Equal(t, "a.jpg", again.State().OnPrimary().Picture.Name)
}

func TestPhotoPath(t *testing.T) {
	home, err := os.UserHomeDir()
	require.NoError(t, err)
	for text, want := range map[string]string{
		"photo":                            "",
		" Photo ":                          "",
		"photo IMG_1.jpg":                  "IMG_1.jpg",
		"photo a b.jpg":                    "a b.jpg",
		`photo "a b.jpg"`:                  "a b.jpg",
		"PHOTO ~/a.png":                    filepath.Join(home, "a.png"),
		`/home/ada/a\ b.JPG `:              "/home/ada/a b.JPG",
		`/home/ada/it\'s\ \(1\).jpeg`:      "/home/ada/it's (1).jpeg",
		"'/home/ada/a b.jpg'":              "/home/ada/a b.jpg",
		"& '/home/ada/a b.jpg'":            "/home/ada/a b.jpg",
		`"/home/ada/a b.jpg"`:              "/home/ada/a b.jpg",
		"file:///home/ada/a%20b.jpg":       "/home/ada/a b.jpg",
		"file:///C:/Users/ada/a%20b.jpg":   "C:/Users/ada/a b.jpg",
		`C:\Users\ada\IMG 1.jpg`:           `C:\Users\ada\IMG 1.jpg`,
		`"C:\Users\ada\IMG 1.jpg"`:         `C:\Users\ada\IMG 1.jpg`,
		`\\shed\photos\IMG 1.jpg`:          `\\shed\photos\IMG 1.jpg`,
		"/home/ada/IMG_1.HEIC":             "/home/ada/IMG_1.HEIC",
		`photo file:///home/ada/a%20b.jpg`: "/home/ada/a b.jpg",
	} {
		path, ok := desk.PhotoPath(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, path, text)
	}
	for _, text := range []string{"", "4:30 12", "430/2", "/", "/4", "a.jpg", "picture central", "photos", "photograph it", "'", `"`, "file:", "C:4", "=", "/etc/passwd", "& '"} {
		_, ok := desk.PhotoPath(text)
		assert.False(t, ok, text)
	}
}

// f5 is a 300 mm f/5 whose ring and laser were measured.
func f5() scope.Scope {
	s := scope.Builtin()
	s.Name, s.Aperture, s.FocalLength = "Curlew", scope.MM(300), scope.MM(1500)
	s.Tube.InnerRadius, s.Tube.SkyEnd = scope.MM(170), scope.MM(1580)
	s.Secondary.FromPrimary, s.Secondary.MinorAxis = scope.MM(1230), scope.MM(70)
	s.Primary.Circle, s.Laser.HoleFromAxis = scope.MM(110), scope.MM(285)
	s.Primary.Ring, s.Laser.Hole = scope.Settled{By: scope.ByTemplate}, scope.Settled{By: scope.ByRolling}
	return s
}

// A whole alignment of a fast practice telescope in which every spot on the primary, and
// the ring's shadow, is read on a picture: drawn as a phone would see it, and found
// in it. It ends ready.
func TestAWholeAlignmentByPictures(t *testing.T) {
	if !sessiontest.Long() {
		t.Skip("some ten pictures, half a second each")
	}
	d := newDesk(t)
	w, err := d.Practice(f5(), event.World{Seed: 7, Level: string(virtual.Easy)})
	require.NoError(t, err)
	pictures, shadows, missed := 0, 0, 0
	for n := 0; !w.Over(); n++ {
		require.Less(t, n, 200)
		s := w.State()
		switch ask := s.Ask(); {
		case ask.Step == session.StepTag && shadows == 0:
			_, err = w.Line("finer")
			require.NoError(t, err)
			continue
		case ask.Step == session.StepStar:
			_, err = w.Line("no")
			require.NoError(t, err)
			continue
		}
		face, err := s.PictureFace()
		if err != nil || s.Told() != nil {
			typeNext(t, w)
			continue
		}
		if _, err := w.Line("photo"); err != nil { // held where a vane hides it
			missed++
			require.Less(t, missed, 4, err.Error())
			continue
		}
		seen := w.Pictured().Sight
		truth := s.Tel.ToDial(face, w.Bench.Look(face).Seen)
		off := math.Hypot(seen.At.Right-truth.Right, seen.At.Up-truth.Up)
		assert.Less(t, off, 4*math.Hypot(seen.AlongMM, seen.AcrossMM)+0.1, "%s: %v for %v", face, seen.At, truth)
		_, err = w.Line("")
		require.NoError(t, err)
		if face == optics.FaceTarget {
			shadows++
		} else {
			pictures++
		}
	}
	s := w.State()
	t.Logf("%d pictures of the primary, %d of the shadow, %d in which it was not found: %s, %s", pictures, shadows, missed, s.Outcome, s.Tag)
	assert.GreaterOrEqual(t, pictures, 2)
	assert.Positive(t, shadows)
	assert.Equal(t, session.OutcomeAligned, s.Outcome)
	assert.Equal(t, session.TagReady, s.Tag)
	assert.NotNil(t, s.Record().Left.P.Picture)
	assert.LessOrEqual(t, w.Bench.World().Truth().ErrorMM, s.Left.ErrMaxMM+0.2)
}
