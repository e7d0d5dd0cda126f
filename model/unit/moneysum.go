package unit

import (
	"errors"
	"fmt"
	"math"
)

// A CurrencyError tells that amounts in two currencies were to be reckoned
// together.
type CurrencyError struct{ One, Other string }

// Error says so in the maker's words.
func (e *CurrencyError) Error() string {
	return fmt.Sprintf("%s and %s cannot be added up: give every price in one currency", e.One, e.Other)
}

// ErrTooMuchMoney tells that a sum is more than can be counted to the last
// minor unit.
var ErrTooMuchMoney = errors.New("the sum is larger than anything in a shop")

// mostMinor is what an amount may come to: well inside what a float64 counts
// one by one.
const mostMinor = 1e15

// Given tells whether an amount was given at all. One of nothing in a currency
// was.
func (m Money) Given() bool { return m.Currency != "" }

// Plus adds two amounts of one currency; what was not given adds nothing. The
// error is a *CurrencyError or ErrTooMuchMoney.
func (m Money) Plus(o Money) (Money, error) {
	switch {
	case !o.Given():
		return m, nil
	case !m.Given():
		return o, nil
	case m.Currency != o.Currency:
		return Money{}, &CurrencyError{m.Currency, o.Currency}
	}
	sum := float64(m.Minor) + float64(o.Minor)
	if math.Abs(sum) > mostMinor {
		return Money{}, ErrTooMuchMoney
	}
	return Money{Minor: m.Minor + o.Minor, Currency: m.Currency}, nil
}

// Times multiplies the amount by a plain number and rounds it to the minor
// unit, halves up. What differs from a half by no more than the last digits of
// the arithmetic is a half, so that 0.35 hours at 28.90 are 10.12 as they are
// by hand.
func (m Money) Times(k float64) (Money, error) { return MoneyOf(float64(m.Minor)*k, m.Currency) }

// MoneyOf rounds a number of minor units to a whole one, halves up. The error is
// ErrTooMuchMoney, also for what is no number.
func MoneyOf(minor float64, currency string) (Money, error) {
	if !(math.Abs(minor) <= mostMinor) {
		return Money{}, ErrTooMuchMoney
	}
	const digits = 2e-15 // what three operations on float64 may be off by
	return Money{Minor: int64(math.Floor(minor + 0.5 + digits*math.Abs(minor))), Currency: currency}, nil
}

// Per divides two amounts of one currency to a plain number; it is not a number
// where the currencies differ or the other is nothing.
func (m Money) Per(o Money) float64 {
	if m.Currency != o.Currency || o.Minor == 0 {
		return math.NaN()
	}
	return float64(m.Minor) / float64(o.Minor)
}
