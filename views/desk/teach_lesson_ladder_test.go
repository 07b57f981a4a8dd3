package desk_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session/lesson"
)

// An answer is picked by its number in the list or by its id: an id that is a
// number would be taken for another answer's place.
func TestNoAnswerIsNamedByANumber(t *testing.T) {
	for _, l := range lesson.All() {
		for _, task := range l.Tasks {
			for _, o := range task.Options {
				_, err := strconv.Atoi(o.ID)
				assert.Error(t, err, "%s: %s", l.ID, o.Words)
			}
		}
	}
}
