// Package sheet is the page a drawing stands on: A4, A3 or letter, frame, title block, notes and
// legend, and the free rectangle that is left for the drawing.
//
// The frame keeps ISO 5457's margins (20 mm on the left for filing, 10 mm elsewhere), the
// title block has the fields of ISO 7200 and is 180 mm wide, line widths are from ISO 128's
// series; all from memory. Lengths are in mm, Y down from the page's top left corner.
package sheet
