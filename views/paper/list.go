package paper

import (
	"html/template"
	"io"

	"spotward/session/words"
)

// List is a table on a page of its own: what is to be done, an evening's scopes.
type List struct {
	Title, Under string
	Program      string
	Columns      []string
	Rows         []ListRow
}

// ListRow is a line of a List. A strong one stands out.
type ListRow struct {
	Strong bool
	Cells  []string
}

// Write writes the page.
func (l List) Write(w io.Writer) error {
	for i, r := range l.Rows {
		cells := make([]string, len(r.Cells))
		for n, text := range r.Cells {
			cells[n] = words.OneLine(text)
		}
		l.Rows[i].Cells = cells
	}
	return render(w, "list.html", func(style template.CSS) any {
		return struct {
			List
			Style template.CSS
		}{l, style}
	})
}

// render fills a template in with what of returns for the style sheet.
func render(w io.Writer, name string, of func(template.CSS) any) error {
	pages, err := template.ParseFS(files, "*.html")
	if err != nil {
		return err
	}
	style, err := files.ReadFile("style.css")
	if err != nil {
		return err
	}
	return pages.ExecuteTemplate(w, name, of(template.CSS(style)))
}
