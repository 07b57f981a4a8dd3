package shelf_test

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"spotward/session/photo"
	"spotward/session/sessiontest"
	"spotward/session/shelf"
)

// A kept picture lies under its session, by its hash, whatever its name; a pack
// leaves it here.
func TestAKeptPictureStaysHere(t *testing.T) {
	l, err := shelf.Open(t.TempDir())
	require.NoError(t, err)
	sessiontest.Stopped(t, l, sessiontest.ID, "heron")
	data := []byte("\xff\xd8\xffa picture")
	path, err := l.KeepPhoto(sessiontest.ID, photo.Of("../../x.PNG", data), data)
	require.NoError(t, err)
	assert.Regexp(t, `photos.`+sessiontest.ID+`.[0-9a-f]{16}\.png$`, path)
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, data, kept)

	half := filepath.Join(filepath.Dir(path), ".new-half")
	require.NoError(t, os.WriteFile(half, data[:3], 0o644))
	_, err = shelf.Open(l.Dir())
	require.NoError(t, err)
	assert.NoFileExists(t, half, "what was half written is swept")
	assert.FileExists(t, path)

	var pack bytes.Buffer
	_, err = l.Pack(&pack, "test", time.Now())
	require.NoError(t, err)
	z, err := zip.NewReader(bytes.NewReader(pack.Bytes()), int64(pack.Len()))
	require.NoError(t, err)
	require.NotEmpty(t, z.File)
	for _, f := range z.File {
		assert.NotContains(t, f.Name, "photos")
	}
	for _, id := range []string{"", "..", "../journals"} {
		_, err := l.KeepPhoto(id, photo.Of("a.jpg", data), data)
		assert.Error(t, err, id)
	}
}
