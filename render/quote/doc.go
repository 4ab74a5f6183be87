// Package quote makes a customer's offer of a job: what is done in plain words, what has to be
// seen first, and what it costs by the description's own prices. It invents no price.
package quote
