// Package past is the screens that look back: records, a session step by step,
// two side by side, a scope's drift, and the fleet.
package past
