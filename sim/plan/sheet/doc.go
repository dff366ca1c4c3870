// Package sheet writes a plan down for people and other programs: a page with a chart of it, figures as
// JSON, lines as GeoJSON (RFC 7946) and GPX 1.1. Places leave the local grid here.
//
// Planning aid; never evidence of clearance: every file says so.
package sheet
