// Package model holds the trade's rules: what a Project says (mold, wood,
// inserts, layers, products) and what follows from it (Plan).
//
// Make turns a Project into a Plan. It is pure: no file, no wall clock (an
// instant is passed in), no randomness (a seed is passed in), no goroutine.
// The same project at the same instant gives the same plan, bit for bit.
//
// Everything inside is SI. Heights are measured up from the mold floor; plan
// coordinates have the origin in the middle of a cavity, x along its length.
// What a data sheet does not say is filled by a typical value with a band,
// marked Typical wherever it is used; where it would decide a stop the answer
// is NotKnown, never fine. A computed result never loosens a data sheet.
package model
