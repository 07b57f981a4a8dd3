// Package scope describes telescopes and kits: the file, its checks, the
// questions of the form, what is taken where nothing was said, and the
// telescope that follows.
//
// It knows no file system: text goes in, text comes out.
package scope
