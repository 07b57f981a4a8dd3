// Package shelf is the data directory: scopes, kits, journals, records,
// drafts and trainees, and what is done with them as files: kept, retired,
// packed, taken from another laptop, forgotten.
//
// Whatever it replaces it replaces by a complete file. It decides nothing
// about an alignment.
package shelf
