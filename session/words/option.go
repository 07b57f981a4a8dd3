package words

// Option is one answer to a choice.
type Option struct {
	ID    string
	Words string
}
