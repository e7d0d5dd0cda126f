package unit

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// TakeLength reads a length as the style has it, and keeps it as it was
// written: "10 3/8" taken in inches is written "10 3/8 in". The error is a
// *ParseError.
func (s Style) TakeLength(text string, by Instrument) (Dim, error) {
	l, err := ParseLength(text, s.Lengths)
	if err != nil {
		return Dim{}, err
	}
	written, err := withUnit(text, &lengths, string(s.LengthUnit()))
	if err != nil {
		return Dim{}, err
	}
	return Dim{Value: l, Written: written, By: by}, nil
}

// TakeVolume reads a volume as the style has it, and keeps it as it was
// written.
func (s Style) TakeVolume(text string) (Taken[Volume], error) {
	v, err := ParseVolume(text, s.Volumes)
	if err != nil {
		return Taken[Volume]{}, err
	}
	written, err := withUnit(text, &volumes, string(s.VolumeUnit()))
	if err != nil {
		return Taken[Volume]{}, err
	}
	return Taken[Volume]{Value: v, Written: written}, nil
}

// TakeMass reads a mass as the style has it, and keeps it as it was written.
func (s Style) TakeMass(text string) (Taken[Mass], error) {
	m, err := ParseMass(text, s.Masses)
	if err != nil {
		return Taken[Mass]{}, err
	}
	written, err := withUnit(text, &masses, string(s.MassUnit()))
	if err != nil {
		return Taken[Mass]{}, err
	}
	return Taken[Mass]{Value: m, Written: written}, nil
}

// TakeTemperature reads a temperature as the style has it, and keeps it as it
// was written.
func (s Style) TakeTemperature(text string) (Taken[Temperature], error) {
	t, stated, err := readTemperature(text, s.Temperatures)
	if err != nil {
		return Taken[Temperature]{}, err
	}
	written := strings.TrimSpace(text)
	if !stated {
		// A mere degree sign or word goes; the number ends with its last digit.
		number := strings.TrimRightFunc(written, func(r rune) bool { return !unicode.IsNumber(r) })
		if written, err = fitting(text, number+" °"+string(s.TempUnit()), &temperatures); err != nil {
			return Taken[Temperature]{}, err
		}
	}
	return Taken[Temperature]{Value: t, Written: written}, nil
}

// withUnit gives the text with a unit: its own, or else the bare one.
func withUnit(text string, k *kind, bare string) (string, error) {
	written := strings.TrimSpace(text)
	if statesUnit(written, k) {
		return written, nil
	}
	return fitting(text, written+" "+bare, k)
}

// fitting refuses a text that its unit makes too long to be read again.
func fitting(text, written string, k *kind) (string, error) {
	if utf8.RuneCountInString(written) > mostRunes {
		return "", &ParseError{Text: text, Reason: "is too long to be " + k.noun, Want: k.want}
	}
	return written, nil
}
