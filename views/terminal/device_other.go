//go:build !unix

package terminal

import "os"

func cellAspect(*os.File) float64 { return 0 }

func canSuspend() bool { return false }
