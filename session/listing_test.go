package session_test

import (
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"spotward/session"
	"spotward/session/event"
)

// said collects what a person reads at the steps: of every stage's row, and of
// walks through sessions.
func said(t *testing.T) map[string]string {
	all := map[string]string{}
	add := func(where string, texts ...string) {
		for _, text := range texts {
			if text != "" {
				all[text] = where
			}
		}
	}
	for _, row := range allRows() {
		where := string(row.ID)
		add(where, row.Do...)
		add(where, row.Beware...)
		add(where, row.Title, row.Brief, row.Look)
		for _, step := range row.Steps {
			add(where, step.Beware...)
			add(where, step.Question, step.Brief)
		}
	}
	for _, from := range walksFrom() {
		rapid.Check(t, func(t *rapid.T) {
			s := startAt(t, from, nil)
			walk(t, s, func(event.Event, session.State, error) {
				ask := s.State().Ask()
				if ask.Stage == nil {
					return
				}
				where := string(ask.Stage.ID)
				add(where, ask.Say, ask.Note, ask.Question, ask.Brief)
				add(where, ask.Beware...)
				for _, o := range ask.Options {
					add(where, o.Words)
				}
				if ask.Told != nil {
					add(where, ask.Told.Why)
				}
			})
		})
	}
	return all
}

// notOurs are words that are not said here in this sense, with what is said.
var notOurs = map[string]*regexp.Regexp{
	"battery": regexp.MustCompile(`(?i)\b(its|fresh|laser's|button) cells?\b|^cells?\b`),
	"accept":  regexp.MustCompile(`(?i)\bis taken\b`),
	"angle":   regexp.MustCompile(`(?i)\baslant\b`),
	"differ":  regexp.MustCompile(`(?i)\botherwise\b`),
}

// mostWords is how many words a sentence on a step's screen has at most.
const mostWords = 20

var sentenceEnds = regexp.MustCompile(`[.?!]( |$)`)

// All that is read at the steps, in one listing (-v prints it): in short sentences
// and everyday words, cautions in what there is room for.
func TestListing(t *testing.T) {
	all := said(t)
	texts := make([]string, 0, len(all))
	for text := range all {
		texts = append(texts, text)
	}
	sort.Slice(texts, func(i, j int) bool { return all[texts[i]]+texts[i] < all[texts[j]]+texts[j] })
	for _, text := range texts {
		t.Logf("%-12s %s", all[text], text)
		for word, re := range notOurs {
			assert.False(t, re.MatchString(text), "%s: say %s: %s", all[text], word, text)
		}
		for _, sentence := range sentenceEnds.Split(text, -1) {
			assert.LessOrEqual(t, len(strings.Fields(sentence)), mostWords, "%s: %s", all[text], sentence)
		}
	}
	const row, smallest = 112, 56
	for _, r := range allRows() {
		if len(r.Beware) == 0 {
			continue
		}
		assert.LessOrEqual(t, len(r.Beware[0]), row, "%s: %s", r.ID, r.Beware[0])
		assert.NotEmpty(t, r.Brief, r.ID)
		briefs := []string{r.Brief, r.Look}
		for _, step := range r.Steps {
			if briefs = append(briefs, step.Brief); step.Beware != nil {
				assert.NotEmpty(t, step.Brief, "%s, %s", r.ID, step.ID)
				assert.LessOrEqual(t, len(step.Beware[0]), row, "%s, %s", r.ID, step.ID)
			}
		}
		for _, b := range briefs {
			assert.LessOrEqual(t, len(b), smallest, "%s: %s", r.ID, b)
		}
	}
}
