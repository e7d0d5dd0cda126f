package unit

import (
	"math"
	"strconv"
	"strings"
)

// moneys reads the number of an amount of money. It has no units of its own:
// the currency is read apart.
var moneys = kind{noun: "an amount of money", want: "12.50", signed: true, thousands: true}

// MinorDigits gives how many decimals a currency has (ISO 4217): two, but none
// for the yen, the won and the like, and three for some dinars.
func MinorDigits(currency string) int {
	switch strings.ToUpper(currency) {
	case "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF":
		return 0
	case "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND":
		return 3
	}
	return 2
}

// ParseMoney reads an amount in the currency given: 12.50, 12,50, 1,234.50.
// The currency's code or sign may stand in front or behind; another one is
// refused, and so are more decimals than the currency has. Because money has
// two decimals, 1,234 is one thousand and more here.
func ParseMoney(text, currency string) (Money, error) {
	s, err := newScanner(text, &moneys, strings.TrimSpace(moneys.want+" "+currency))
	if err != nil {
		return Money{}, err
	}
	negative, err := s.sign()
	if err != nil {
		return Money{}, err
	}
	before, err := s.currency(currency)
	if err != nil {
		return Money{}, err
	}
	if !s.startsAmount(s.pos) {
		return Money{}, s.noNumber()
	}
	start := s.pos
	a, err := s.decimalMoney(currency)
	if err != nil {
		return Money{}, err
	}
	if s.skipSpace(); !before && !s.done() {
		if _, err := s.currency(currency); err != nil {
			return Money{}, err
		}
	}
	if !s.done() {
		return Money{}, s.noUnit(s.pos)
	}
	if a.value > mostAmount {
		return Money{}, s.fail(start, "is larger than anything in a shop")
	}
	minor := int64(math.Round(a.value * math.Pow10(MinorDigits(currency))))
	if negative {
		minor = -minor
	}
	return Money{Minor: minor, Currency: currency}, nil
}

// decimalMoney reads digits that the currency has room for.
func (s *scanner) decimalMoney(currency string) (amount, error) {
	if r := s.peek(); !isDigit(r) && r != '.' && r != ',' {
		return amount{}, s.fail(s.pos, "has a fraction, which money cannot have,")
	}
	a, err := s.decimal()
	if err == nil && a.decimals > MinorDigits(currency) {
		err = s.fail(a.pos, "has more decimals than the currency")
	}
	return a, err
}

// currency reads a currency's code or sign where one stands, and refuses one
// that is not the one given.
func (s *scanner) currency(code string) (found bool, err error) {
	at := s.pos
	end := at
	for end < len(s.text) {
		r, next := s.runeAt(end)
		if !strings.ContainsRune("$€£¥₩₹", r) && !('A' <= r && r <= 'Z') && !('a' <= r && r <= 'z') {
			break
		}
		end = next
	}
	if end == at {
		return false, nil
	}
	word := s.text[at:end]
	code = strings.ToUpper(code)
	ok := strings.ToUpper(word) == code
	switch word {
	case "$":
		ok = strings.HasSuffix(code, "D") || code == "MXN" || code == "CLP"
	case "€":
		ok = code == "EUR"
	case "£":
		ok = code == "GBP"
	case "¥":
		ok = code == "JPY" || code == "CNY"
	case "₩":
		ok = code == "KRW"
	case "₹":
		ok = code == "INR"
	}
	if !ok {
		return false, s.fail(at, "has “"+shown(word)+"”, which is not the currency in use,")
	}
	s.pos = s.afterSpace(end)
	return true, nil
}

// String writes the amount with all its decimals and the currency's code:
// 12.50 EUR.
func (m Money) String() string {
	digits := MinorDigits(m.Currency)
	sign, n := "", strconv.FormatInt(m.Minor, 10)
	if m.Minor < 0 {
		sign, n = "-", n[1:]
	}
	if digits > 0 {
		if len(n) <= digits {
			n = strings.Repeat("0", digits+1-len(n)) + n
		}
		n = n[:len(n)-digits] + "." + n[len(n)-digits:]
	}
	if m.Currency == "" {
		return sign + n
	}
	return sign + n + " " + m.Currency
}
