// Package live serves one job as a page that follows its file: it watches the folder, works
// the job out anew when the file is saved, and tells every open browser which sections of the
// page are others now. What the sections say is render/live.
//
// It answers whoever can reach the address and nobody else: requests for another host, from a
// page of another origin or without the token are refused, and no path leads to a file.
package live
