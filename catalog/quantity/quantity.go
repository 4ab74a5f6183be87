// Package quantity reads and prints values with units as the trade writes them.
//
// A Quantity keeps the text it was read from. Inch fractions and compounds ("12 ft 6 in",
// "1 1/2 in", "1-1/2 in") are read exactly. The value is in the dimension's base unit:
// Length mm, Volume m³, Flow m³/s, Pressure Pa, Head m of water, Temperature °C,
// Power W, Current A, Voltage V, Mass kg, Density kg/m³, Viscosity Pa·s, Time s, Share 1,
// Kv m³/h, Air m³/s.
package quantity
