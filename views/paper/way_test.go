package paper

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A session of many looks keeps to one sheet: its first and its last ones.
func TestManyLooksAreCut(t *testing.T) {
	for _, n := range []int{0, 1, mostLooks, mostLooks + 1, 100} {
		var w way
		for i := range n {
			w.looks = append(w.looks, look{N: i + 1})
		}
		var p page
		p.way(w)
		assert.Len(t, p.Looks, min(n, mostLooks))
		if n <= mostLooks {
			continue
		}
		assert.Equal(t, firstLooks, p.Looks[firstLooks-1].N)
		assert.Equal(t, n-mostLooks, p.Looks[firstLooks].After)
		assert.Equal(t, firstLooks+n-mostLooks+1, p.Looks[firstLooks].N)
		assert.Equal(t, n, p.Looks[mostLooks-1].N)
		assert.Zero(t, w.looks[firstLooks].After)
	}
}
