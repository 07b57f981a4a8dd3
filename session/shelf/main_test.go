package shelf_test

import (
	"os"
	"testing"

	"spotward/session/sessiontest"
)

func TestMain(m *testing.M) {
	sessiontest.Checks(25, 20, 100)
	os.Exit(m.Run())
}
