// Package unit holds the quantities of the trade: lengths, areas, volumes,
// masses, densities, temperatures, times, shares and money, each a type of
// its own so that a depth cannot be passed for a volume.
//
// Everything is SI inside (metre, square metre, cubic metre, kilogram,
// kilogram per cubic metre, kelvin, second, radian). Conversion factors are
// the exact ones of NIST SP 811 and NIST Handbook 44 Appendix C. The package
// reads quantities as makers write them and writes them back the same way;
// Taken keeps what was written beside the value, so that nothing drifts.
package unit
