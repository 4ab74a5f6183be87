package stock

// Bar is one length of stock and what is cut from it.
type Bar struct {
	StockMM  float64
	Price    string
	Offcut   bool    // was in the van
	Pieces   []int   // Piece.Number, in the order to cut
	OffcutMM float64 // what is left
}
