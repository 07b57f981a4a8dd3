package history

import (
	"slices"
	"time"
)

// Begun says where and when a session was begun.
type Begun struct {
	Dir   string // the id of the data directory; "": not known
	Count int
	At    time.Time
	ID    string
}

// InOrder returns sessions in the order in which they were begun, oldest first.
//
// Within one data directory that is the order of its counter, which no clock
// can turn; between directories it is time. A session that was counted nowhere
// stands where its time puts it. Each directory's are a row of their own; of the
// rows' first ones, the earliest is always the next.
func InOrder[T any](all []T, of func(T) Begun) []T {
	rows := map[string][]int{}
	begun := make([]Begun, len(all))
	for i, one := range all {
		begun[i] = of(one)
		row := begun[i].Dir
		if begun[i].Count < 1 {
			row = ""
		}
		rows[row] = append(rows[row], i)
	}
	earlier := func(i, j int) int {
		if c := begun[i].At.Compare(begun[j].At); c != 0 {
			return c
		}
		if begun[i].ID != begun[j].ID {
			if begun[i].ID < begun[j].ID {
				return -1
			}
			return 1
		}
		return i - j
	}
	var heads [][]int
	for dir, row := range rows {
		slices.SortFunc(row, func(i, j int) int {
			if dir != "" && begun[i].Count != begun[j].Count {
				return begun[i].Count - begun[j].Count
			}
			return earlier(i, j)
		})
		heads = append(heads, row)
	}
	if len(heads) == 1 && slices.IsSorted(heads[0]) {
		return all // as they are kept, mostly
	}
	out := make([]T, 0, len(all))
	for len(heads) > 0 {
		next := 0
		for k := range heads {
			if earlier(heads[k][0], heads[next][0]) < 0 {
				next = k
			}
		}
		out = append(out, all[heads[next][0]])
		if heads[next] = heads[next][1:]; len(heads[next]) == 0 {
			heads = slices.Delete(heads, next, next+1)
		}
	}
	return out
}
