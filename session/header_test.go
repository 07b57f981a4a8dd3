package session_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"spotward/session/header"
)

// Every header of every stage has words for each of its facts, in full and in
// brief.
func TestEveryHeaderHasWords(t *testing.T) {
	for _, row := range allRows() {
		headers := []header.Header{row.Header}
		for _, step := range row.Steps {
			if step.Header != nil {
				headers = append(headers, *step.Header)
			}
		}
		for _, h := range headers {
			words := h.Words()
			for what, w := range map[string]header.Wording{"stand": words.Stand, "tool": words.Tool, "tube": words.Tube, "laser": words.Laser} {
				assert.NotEmpty(t, w.Long, "%s: %s of %+v", row.ID, what, h)
				assert.NotEmpty(t, w.Short, "%s: %s of %+v", row.ID, what, h)
				assert.LessOrEqual(t, len(w.Short), len(w.Long), "%s: %s", row.ID, what)
			}
		}
	}
}
