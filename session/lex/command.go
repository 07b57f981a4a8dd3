package lex

import "strings"

// commands are the ways to say what holds at every question, each with the word
// that is shown for it.
var commands = commandTable(`
undo: take back; undo that; undo it; undo last; undo this; take that back; take it back; cancel that; scratch that; ignore that; forget that; delete that; that was wrong undo
redo: redo that; redo it
back: back one; one back; previous; previous step; step back; back a step; go back a stage; back to the stage before
stop: stop now; stop it; stop stop; stop everything; make safe; make it safe; abort; emergency; emergency stop; stop here; i want to stop; we stop
quit: exit; quit now; bye; log out
help: help me; help please; what can i say; what can i type; what do i type; what should i type; i need help; what do i say
why: why that; why so; how come; why this; why this one; what for; what is the reason
where: repeat; what was that again; what was it again; what; pardon; again; repeat; repeat that; say again; say that again; come again; what was that; huh; once more; read it again; which question; what now; what next; what do i do; what do i do now
watching: watch; i watch; we watch
`)

func commandTable(text string) map[string]string {
	all := map[string]string{}
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		word, list, _ := strings.Cut(line, ": ")
		for _, phrase := range strings.Split(list, "; ") {
			all[phrase] = word
		}
	}
	return all
}

// Command returns the word that is shown for a line that holds at every question,
// however it was said: "undo that!" is undo. Every other line is returned in
// lower case, without its margins.
func Command(line string) string {
	word := strings.ToLower(strings.TrimSpace(line))
	if word == "?" {
		return "help"
	}
	bare := strings.Join(strings.Fields(strings.Trim(word, ".,;:!? ")), " ")
	bare = strings.ReplaceAll(strings.TrimSuffix(strings.TrimPrefix(bare, "please "), " please"), "'", "")
	if known, ok := commands[bare]; ok {
		return known
	}
	if commandWords[bare] {
		return bare
	}
	return word
}

// commandWords are the words that hold at every question, as they are shown.
var commandWords = map[string]bool{
	"help": true, "why": true, "where": true, "u": true, "undo": true, "redo": true, "b": true, "back": true,
	"stop": true, "stop safely": true, "go on": true, "q": true, "quit": true, "finer": true, "go back": true,
}
