package desk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"spotward/session/photo"
)

// ReadPicture returns the bytes of a picture's file. The file is only read, and
// no more of it than a picture can have. The error says in one line what is
// wrong with the path.
func ReadPicture(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no picture at %q: check the path", path)
	case err != nil:
		return nil, fmt.Errorf("the picture at %q cannot be read: %v", path, reason(err))
	case info.IsDir():
		return nil, fmt.Errorf("%q is a folder: give the path of a picture in it", path)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%q is no file: give the path of a picture", path)
	}
	if err := photo.TooLarge(info.Size()); err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("the picture at %q cannot be read: %v", path, reason(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, photo.MostBytes+1)) // it may grow meanwhile
	if err != nil {
		return nil, fmt.Errorf("the picture at %q cannot be read: %v", path, reason(err))
	}
	return data, nil
}

// reason returns what an error of the file system says, without its path.
func reason(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
