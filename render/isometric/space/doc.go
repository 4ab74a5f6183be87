// Package space is the projection of an isometric: points in space onto the page, levels moved
// apart so that lines are told from each other, and what covers what. All lengths are mm.
package space
