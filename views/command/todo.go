package command

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"spotward/session/history"
	"spotward/session/words"
	"spotward/views/paper"
)

func (c *cli) todoCommand() *cobra.Command {
	var p picking
	var asJSON, asCSV bool
	var to string
	cmd := &cobra.Command{
		Use: "todo", Short: "What is to be done, the most pressing first", Args: cobra.NoArgs,
		Long: `What is to be done now and in the two weeks after. A ! marks what is overdue.
How often a scope or a kit is due: check_days = 60 in its file.

--json has v and todo. Each has scope, kit or person, need, what, why, due and
overdue_days. need is hold_back, finish, mend, look, sign or file. due is a day;
left out it is now.
--csv has the same columns.`,
		RunE: func(*cobra.Command, []string) error {
			fleet, err := c.fleet(p)
			if err != nil {
				return failed(err)
			}
			now := time.Now()
			renew, err := c.toRenew(p, now)
			if err != nil {
				return failed(err)
			}
			tasks := fleet.Todo(now, renew...)
			switch {
			case asJSON:
				return failed(c.writeJSON("todo", taskRows(tasks)))
			case asCSV:
				return failed(writeTasksCSV(c.streams.Out, tasks))
			case to != "":
				return failed(c.printTodo(to, tasks, now))
			}
			c.writeTodo(tasks)
			return nil
		},
	}
	c.pickFlags(cmd, &p)
	jsonFlag(cmd, &asJSON)
	cmd.Flags().BoolVar(&asCSV, "csv", false, "for a spreadsheet")
	cmd.Flags().StringVar(&to, "to", "", "a page to print, as an HTML file, or - for standard output")
	cmd.MarkFlagsMutuallyExclusive("json", "csv", "to")
	return cmd
}

// toRenew is whose sign-off runs out, where all is listed and not some scopes.
func (c *cli) toRenew(p picking, now time.Time) ([]history.Task, error) {
	l, err := c.library()
	if err != nil || l == nil || p != (picking{}) {
		return nil, err
	}
	people, err := peopleOf(l, now)
	var out []history.Task
	for _, who := range people {
		if who.Until == nil {
			continue
		}
		if t, due := history.Renew(who.Name, *who.Until, now); due {
			out = append(out, t)
		}
	}
	return out, err
}

// todoColumns is how wide a line of the list is, and its parts.
const (
	todoColumns = 80
	todoName    = 14
	todoWhat    = 30
)

func (c *cli) writeTodo(tasks []history.Task) {
	out := c.streams.Out
	if len(tasks) == 0 {
		fmt.Fprintln(out, "Nothing is to be done in the next two weeks.")
		return
	}
	name, what, due := 5, 4, 3
	for _, t := range tasks {
		name, what = max(name, utf8.RuneCountInString(t.Name())), max(what, utf8.RuneCountInString(t.What))
		due = max(due, len(dueText(t)))
	}
	name, what = min(name, todoName), min(what, todoWhat)
	why := todoColumns - 2 - name - 2 - what - 2 - due - 2
	line := func(mark, n, w, y, d string) {
		text := fmt.Sprintf("%-2s%s  %s  %s  %s", mark, fit(n, name), fit(w, what), fit(d, due), cut(y, why))
		fmt.Fprintln(out, strings.TrimRight(text, " "))
	}
	line("", "NAME", "WHAT", "WHY", "DUE")
	late := 0
	for _, t := range tasks {
		mark := ""
		if t.Days > 0 {
			mark, late = "!", late+1
		}
		line(mark, words.OneLine(t.Name()), words.OneLine(t.What), words.OneLine(t.Why), dueText(t))
	}
	fmt.Fprintf(out, "\n%s; %d overdue, marked !.\n", count(len(tasks), "task"), late)
}

func dueText(t history.Task) string {
	if t.Due.IsZero() {
		return "now"
	}
	return day(t.Due)
}

// cut returns text in at most so many columns, and fit in just as many.
func cut(text string, columns int) string {
	if utf8.RuneCountInString(text) <= columns {
		return text
	}
	return strings.TrimRight(string([]rune(text)[:columns-3]), " ") + "..."
}

func fit(text string, columns int) string {
	text = cut(text, columns)
	return text + strings.Repeat(" ", columns-utf8.RuneCountInString(text))
}

// taskRow is a task with the keys of --json, which are the columns of --csv.
type taskRow struct {
	Scope   string `json:"scope,omitempty"`
	Kit     string `json:"kit,omitempty"`
	Person  string `json:"person,omitempty"`
	Need    string `json:"need"`
	What    string `json:"what"`
	Why     string `json:"why"`
	Due     string `json:"due,omitempty"`
	Overdue int    `json:"overdue_days"`
}

func taskRows(tasks []history.Task) []taskRow {
	out := []taskRow{}
	for _, t := range tasks {
		row := taskRow{Scope: t.Scope, Kit: t.Kit, Person: t.Person, Need: t.Need.ID(), What: t.What, Why: t.Why, Overdue: t.Days}
		if !t.Due.IsZero() {
			row.Due = day(t.Due)
		}
		out = append(out, row)
	}
	return out
}

func writeTasksCSV(w io.Writer, tasks []history.Task) error {
	out := csv.NewWriter(w)
	if err := out.Write([]string{"scope", "kit", "need", "what", "why", "due", "overdue_days", "person"}); err != nil {
		return err
	}
	for _, r := range taskRows(tasks) {
		line := []string{r.Scope, r.Kit, r.Need, r.What, r.Why, r.Due, strconv.Itoa(r.Overdue), r.Person}
		for i := range line {
			line[i] = history.PlainCell(line[i])
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func (c *cli) printTodo(to string, tasks []history.Task, now time.Time) error {
	list := paper.List{Title: "To do", Under: day(now), Program: Version(), Columns: []string{"done", "name", "what", "why", "due"}}
	for _, t := range tasks {
		due := dueText(t)
		if t.Days > 0 {
			due += fmt.Sprintf(", overdue %s", count(t.Days, "day"))
		}
		list.Rows = append(list.Rows, paper.ListRow{Strong: t.Days > 0 || t.Need == history.NeedHoldBack, Cells: []string{"☐", t.Name(), t.What, t.Why, due}})
	}
	return c.writeTo(to, func(w io.Writer) (string, error) { return count(len(tasks), "task"), list.Write(w) })
}
