// Package photo makes a picture taken on site fit for the papers: turned the way it was held,
// reduced, and without what a camera hides in it (place, time, device, a smaller copy).
//
// Everything is counted in whole numbers, so that equal files give equal bytes on every
// machine. Nothing here touches a file.
package photo
