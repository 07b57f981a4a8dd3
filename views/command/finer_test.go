package command_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAFaultThatIsNotKnown(t *testing.T) {
	_, errs := run(t, 2, "practice", "--fault", "moon")
	assert.Contains(t, errs, "laser, ring, slipped, turned")
}
