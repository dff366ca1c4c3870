// Package app is the trainer window: screens, panels, keys and settings. It
// turns what is pressed into orders for the crew and draws what the crew shows;
// of the truth it knows only what an exercise lets be seen.
//
// A [Game] shows one [Screen] at a time. Update runs first and owns every
// change; Draw only reads. Controls are ebitenui's, built afresh whenever size,
// scale or theme change; the live pictures are drawn into the places left free
// for them.
package app
