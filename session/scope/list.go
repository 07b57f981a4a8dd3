package scope

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"spotward/session/words"
)

// Files returns the scopes of a list as their files, one a row. The first row has
// the keys as a file has them, with their table before a point, as in
// secondary.from_primary_mm. An empty cell leaves its key out.
func Files(list []byte) ([][]byte, error) {
	if len(list) > maxListBytes {
		return nil, fmt.Errorf("the list is too long: expected at most %d KB", maxListBytes>>10)
	}
	read := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(list, []byte("\ufeff"))))
	read.TrimLeadingSpace = true
	read.FieldsPerRecord = -1
	if first, _, _ := bytes.Cut(list, []byte("\n")); !bytes.Contains(first, []byte(",")) && bytes.Contains(first, []byte(";")) {
		read.Comma = ';' // as spreadsheets write it where the comma is the decimal point
	}
	rows, err := read.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("the list cannot be read: %s", words.OneLine(err.Error()))
	}
	if len(rows) < 2 {
		return nil, errors.New("a list has its keys in the first row, as in name,aperture_mm,focal_length_mm, and a scope in each row after it")
	}
	var out [][]byte
	for n, row := range rows[1:] {
		if len(row) > len(rows[0]) {
			return nil, fmt.Errorf("row %d of the list has %d cells: expected %d, as the first row has", n+2, len(row), len(rows[0]))
		}
		if file := rowFile(rows[0], row); len(file) > 0 {
			out = append(out, file)
		}
	}
	return out, nil
}

// maxListBytes is more than a list of a thousand scopes takes.
const maxListBytes = 1 << 20

// rowFile returns a row as a scope's file, nothing of an empty one.
func rowFile(keys, row []string) []byte {
	tables := map[string][]string{}
	var order []string
	said := map[string]bool{}
	for n, cell := range row {
		cell = strings.TrimSpace(cell)
		if cell == "" {
			continue
		}
		table, key, inside := strings.Cut(strings.TrimSpace(keys[n]), ".")
		if !inside {
			table, key = "", table
		}
		if tables[table] == nil && table != "" {
			order = append(order, table)
		}
		tables[table] = append(tables[table], strconv.Quote(key)+" = "+cellValue(table, key, cell))
		said[table+"."+key] = true
	}
	if len(said) == 0 {
		return nil
	}
	lines := tables[""]
	if !said[".format"] {
		lines = append([]string{fmt.Sprintf("format = %d", FormatVersion)}, lines...)
	}
	for _, table := range order {
		lines = append(append(lines, "", "["+strconv.Quote(table)+"]"), tables[table]...)
	}
	return []byte(strings.Join(lines, "\n") + "\n")
}

// cellValue returns a cell as a file has it: numbers bare, lists in brackets, all
// else in quotes.
func cellValue(table, key, cell string) string {
	for _, f := range scopeFields {
		if !knows([]field{f}, table, key) {
			continue
		}
		switch f.at(new(Scope)).(type) {
		case *Length, *int, **int:
			if v, ok := plainNumber(cell); ok {
				return strconv.FormatFloat(v, 'f', -1, 64)
			}
		case *bool:
			if cell == "true" || cell == "false" {
				return cell
			}
		case *[]string:
			return "[" + quotedList(strings.FieldsFunc(cell, func(r rune) bool { return r == ' ' || r == ';' })) + "]"
		}
	}
	return strconv.Quote(cell)
}
