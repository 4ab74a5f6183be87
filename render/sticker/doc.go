// Package sticker draws stickers to cut out and stick or tie on: one for every piece of pipe
// and one for every valve, in a grid of cut lines. Lengths on the sheet are mm.
package sticker
