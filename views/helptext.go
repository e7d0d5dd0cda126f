package views

import (
	"regexp"
	"strings"

	"meniscus/assets"
)

// blockKind is what a block of the help is.
type blockKind int

const (
	helpWordsOn blockKind = iota // running text
	helpHead                     // a heading
	helpStep                     // one of several steps, with its number
	helpPoint                    // one of several points
	helpTerm                     // a word with what it means
	helpCaution                  // what guards people
)

// helpLink leads from the help to a place.
type helpLink struct{ label, to string }

// helpBlock is one block of the help.
type helpBlock struct {
	kind  blockKind
	lead  string // the number of a step, the word that a term explains
	text  string
	links []helpLink
}

// helpText is one part of the help.
type helpText struct {
	title  string
	blocks []helpBlock
}

// helpTextOf reads a part of the help; a part that has no text has no title.
func helpTextOf(part string) helpText {
	data, err := assets.Help.ReadFile("help/" + part + ".md")
	if err != nil {
		return helpText{}
	}
	return parseHelp(string(data))
}

var (
	stepLine = regexp.MustCompile(`^([0-9]+)\. (.*)$`)
	termLine = regexp.MustCompile(`^- \*\*(.+?)\*\*:? (.*)$`)
	linkEnd  = regexp.MustCompile(`^(.*?)\s*\[([^\]]+)\]\(([^)]+)\)$`)
)

// parseHelp reads the little of Markdown that the help is written in: a title,
// headings, numbered steps, points, words in bold with what they mean, what guards
// people as a quotation, and running text. A block may end in links.
func parseHelp(source string) (t helpText) {
	var open *helpBlock // takes lines that go on
	begin := func(kind blockKind, lead, text string) {
		t.blocks = append(t.blocks, helpBlock{kind: kind, lead: lead, text: text})
		open = &t.blocks[len(t.blocks)-1]
	}
	for _, line := range strings.Split(source, "\n") {
		line = strings.TrimSpace(line)
		step, term := stepLine.FindStringSubmatch(line), termLine.FindStringSubmatch(line)
		switch {
		case line == "":
			open = nil
		case strings.HasPrefix(line, "# "):
			t.title = line[2:]
		case strings.HasPrefix(line, "## "):
			begin(helpHead, "", line[3:])
			open = nil
		case step != nil:
			begin(helpStep, step[1], step[2])
		case term != nil:
			begin(helpTerm, term[1], term[2])
		case strings.HasPrefix(line, "- "):
			begin(helpPoint, "", line[2:])
		case strings.HasPrefix(line, "> "):
			begin(helpCaution, "", line[2:])
		case open != nil:
			open.text += " " + line
		default:
			begin(helpWordsOn, "", line)
		}
	}
	for i := range t.blocks {
		t.blocks[i].takeLinks()
	}
	return t
}

// takeLinks takes the links from the end of a block's text.
func (b *helpBlock) takeLinks() {
	for {
		m := linkEnd.FindStringSubmatch(b.text)
		if m == nil {
			return
		}
		b.text = m[1]
		b.links = append([]helpLink{{m[2], m[3]}}, b.links...)
	}
}
