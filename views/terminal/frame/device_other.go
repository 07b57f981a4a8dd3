//go:build !unix

package frame

import "os"

// CellAspect returns 0: no such terminal tells its cells' size.
func CellAspect(*os.File) float64 { return 0 }

func canSuspend() bool { return false }
