package model

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// TestEveryFindingSays: whatever says a finding, in the source, hands over what,
// why and what to do; none of them is written as nothing.
func TestEveryFindingSays(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	set, kinds := token.NewFileSet(), map[string]bool{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			name := ""
			switch f := call.Fun.(type) {
			case *ast.SelectorExpr:
				name = f.Sel.Name
			case *ast.Ident:
				name = f.Name
			}
			if name != "say" || len(call.Args) < 5 {
				return true
			}
			for _, a := range call.Args {
				if l, ok := a.(*ast.BasicLit); ok && l.Kind == token.STRING {
					text, _ := strconv.Unquote(l.Value)
					if first, last, dotted := strings.Cut(text, "."); dotted && first != "" && last != "" && !strings.Contains(text, " ") {
						kinds[text] = true
					}
				}
			}
			for i, a := range call.Args[len(call.Args)-3:] {
				if l, ok := a.(*ast.BasicLit); ok && l.Value == `""` {
					t.Errorf("%s: the finding has no %s", set.Position(call.Pos()), []string{"what", "why", "do"}[i])
				}
			}
			return true
		})
	}
	if len(kinds) < 60 {
		t.Errorf("only %d kinds of findings were found in the source", len(kinds))
	}
}

// TestDemoFindingsSay: all findings of the demo jobs, of an empty piece, and of
// jobs of which one measured figure is left out, have what, why and what to do.
func TestDemoFindingsSay(t *testing.T) {
	hold := func(of string, list []Finding) {
		t.Helper()
		for _, f := range list {
			if f.What == "" || f.Why == "" || f.Do == "" {
				t.Errorf("%s: %+v", of, f)
			}
		}
	}
	hold("an empty piece", Make(Blank("x", "")).Findings)
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := demo(t, name)
		pl := Make(p)
		hold(name, pl.Findings)
		curing, err := Simulate(t.Context(), &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		hold(name+", simulated", curing.Findings)
		tried := 0
		for _, l := range pl.Layers {
			for _, in := range l.Influences {
				p := demo(t, name)
				if Enter(&p, in.Field, "") == nil {
					hold(name+" without "+in.Field, Make(p).Findings)
					tried++
				}
			}
		}
		if tried < 5 {
			t.Errorf("%s: only %d figures could be left out", name, tried)
		}
	}
}
