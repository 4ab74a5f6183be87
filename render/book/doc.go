// Package book holds a job's papers as chapters and writes them twice from the same content:
// as a page for the screen (HTML) and as a book for paper (PDF).
//
// A chapter is made of items: words, steps, tables, sheets of drawings. Whoever makes the
// chapters says nothing of how they look; whoever writes them adds no words of his own but
// page numbers and the contents.
package book
