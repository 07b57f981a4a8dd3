// Package frame is what every screen of the terminal stands in: the page of
// cells, the line that is typed in, keys and mouse, help, and the one place
// where messages are routed.
//
// It knows no session: screens are handed to it.
package frame
