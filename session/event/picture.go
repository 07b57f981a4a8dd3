package event

// Picture is the file that a reading was measured on. Where the file lay is
// nobody's business but its owner's: its name and its hash tell it again.
type Picture struct {
	Name   string `json:"name"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"` // of the file, in hex
}
