package shelf_test

import (
	"fmt"
	"os"
	"time"

	"spotward/session/journal"
)

// A journal is kept line by line and read back to its last whole one.
func Example_journal() {
	dir, err := os.MkdirTemp("", "journals")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	evening := func() time.Time { return time.Date(2026, 2, 14, 20, 30, 0, 0, time.UTC) }
	j, err := journal.Create(dir, journal.NewID(evening(), 0x9f3a), "Ann", evening)
	if err != nil {
		fmt.Println(err)
		return
	}
	err = j.Append(journal.Entry{Kind: "begin"}, journal.Entry{Kind: "confirm"})
	fmt.Println("kept:", err == nil, j.Close() == nil)
	lines, _, err := journal.Read(j.Path())
	fmt.Println("read:", err == nil)
	for _, l := range lines {
		fmt.Println(l.Seq, l.Kind)
	}
	// Output:
	// kept: true true
	// read: true
	// 0 begin
	// 1 confirm
}
