// Package sessiontest has what the tests of the session's rooms share: scopes
// of testdata, a shelf in a temporary directory, sessions that are begun or
// stopped, golden files. Tests alone import it.
package sessiontest
