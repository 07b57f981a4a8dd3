package terminal

import (
	"os"
	"testing"
)

func TestMain(m *testing.M) {
	code := m.Run()
	kept.remove()
	shed.remove()
	os.Exit(code)
}
