// Package home is the front page, a scope's page, and the form that describes a
// scope or a kit.
package home
