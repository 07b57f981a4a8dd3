// Package history is what many sessions on record say together: how a scope
// was found against how it was left, what moves it, whether a kit can be
// trusted, the table of the fleet, and the export for a spreadsheet.
//
// It is given records and descriptions; it opens no file.
package history
