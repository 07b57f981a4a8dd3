package journal

import (
	"errors"
	"os"
	"runtime"
	"syscall"
)

// SyncDir has the names in dir on disk. Windows has no such thing, nor have
// some file systems of other machines' disks.
func SyncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil
	}
	return errors.Join(err, d.Close())
}
