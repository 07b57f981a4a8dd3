package session

// Append keeps a line of any kind and content, as other programs may write
// them.
func (j *Journal) Append(kind string, payload any) error {
	line, err := j.line(j.seq, kind, payload)
	if err == nil {
		err = j.write(line)
	}
	if err != nil {
		return cannotKeep(kind, err)
	}
	j.seq++
	return nil
}
