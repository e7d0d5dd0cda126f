package views

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
)

// TestRefusalIsSaid: what is touched in a window that is a step behind, or that what
// was poured forbids, changes nothing, and the window says so and why. Each is
// touched where a project or its journal really refuses it.
func TestRefusalIsSaid(t *testing.T) {
	elsewhere := func(change func(*model.Project) error) func(*bench) {
		return func(b *bench) {
			if err := b.Edit("Elsewhere", "", change); err != nil {
				t.Fatal(err)
			}
		}
	}
	gone := func(path string) func(*bench) {
		return elsewhere(func(p *model.Project) error { return p.Remove(path) })
	}
	for what, c := range map[string]struct {
		key, demo string
		before    func(b *bench, p page) // turns to the control
		button    string
		refuse    func(*bench)
		why       string
	}{
		"an additive that is gone": {key: layersKey, demo: "poppy-stand", before: func(b *bench, p page) {
			b.did(b.Edit("One more", "", func(p *model.Project) error {
				p.Layers[1].Additives = []model.Additive{{ID: "a1", Name: "chalk"}}
				return nil
			}))
		}, button: "Take it out", refuse: gone("layers/l4/additives/a1"), why: "no longer there"},
		"a tint that is gone": {key: mixingKey, demo: "poppy-stand", before: func(b *bench, p page) {
			b.did(b.Edit("One more", "", func(p *model.Project) error {
				p.Layers[0].Additives = []model.Additive{{ID: "a1", Name: "chalk"}}
				return nil
			}))
			p.(*mixingPage).tabs.turn("tint")
		}, button: "Take it out", refuse: gone("layers/l3/additives/a1"), why: "no longer there"},
		"a piece of wood that is gone": {key: moldKey, demo: "poppy-stand", before: func(b *bench, p page) {
			p.(*moldPage).pane.show(moldWood)
		}, button: "Remove this piece of wood", refuse: elsewhere(func(p *model.Project) error { p.Pieces = nil; return nil }), why: "no longer there"},
		"a station of what is gone": {key: moldKey, demo: "poppy-stand", before: func(b *bench, p page) {
			b.did(b.Edit("By stations", "", func(m *model.Project) error {
				m.Pieces[0].Kind, m.Pieces[0].Stations = model.PieceStations, make([]unit.Dim, 3)
				return nil
			}))
			p.(*moldPage).pane.show(moldWood)
		}, button: "Add a station", refuse: elsewhere(func(p *model.Project) error { p.Pieces = nil; return nil }), why: "no longer there"},
		"a mount that is gone": {key: finishKey, demo: "hall-shelf", before: func(b *bench, p page) {
			p.(*finishPage).tabs.turn(finishDrill)
			p.(*finishPage).parts[finishDrill].addMount(string(model.MountHandle))
		}, button: "Remove it", refuse: elsewhere(func(p *model.Project) error { p.Finish.Mounts = nil; return nil }), why: "no longer there"},
	} {
		b, p := pageOn(t, c.key, c.demo)
		c.before(b, p)
		b.settle()
		root := b.desk.covers[c.key].root
		c.refuse(b) // the window does not know yet
		was := b.newest()
		tapOn(t, root, c.button)
		if n := b.desk.notice; n == nil || !strings.Contains(n.what, "nothing has changed") || !strings.Contains(n.do, c.why) || !shows(root, n.do) {
			t.Errorf("%s: the window says %+v", what, n)
		}
		if !reflect.DeepEqual(b.newest(), was) {
			t.Errorf("%s: it was changed all the same", what)
		}
		b.settle()
		b.end()
	}
}

// TestSayingNothingOfNothing: a change that would change nothing is no refusal.
func TestSayingNothingOfNothing(t *testing.T) {
	b, p := pageOn(t, moldKey, "poppy-stand")
	p.(*moldPage).draw.move(b.Snapshot().Project.Pieces[0].ID, 0, 0, true)
	if b.desk.notice != nil {
		t.Errorf("it says %+v", b.desk.notice)
	}
}

// TestNoRefusalIsDropped reads the source: no window drops the error of anything
// that a session is asked for, nor that of a function of its own.
func TestNoRefusalIsDropped(t *testing.T) {
	files := token.NewFileSet()
	all, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	fails := map[string]bool{}
	for s, i := reflect.TypeFor[*app.Session](), 0; i < s.NumMethod(); i++ {
		if m := s.Method(i); m.Type.NumOut() > 0 && m.Type.Out(m.Type.NumOut()-1) == reflect.TypeFor[error]() {
			fails[m.Name] = true
		}
	}
	delete(fails, "Close") // as windows and files are closed too
	if !fails["Edit"] || !fails["EditShelf"] || fails["Enter"] {
		t.Fatalf("what can fail was not found: %v", fails)
	}
	var trees []*ast.File
	for _, name := range all {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		trees = append(trees, tree)
		for _, d := range tree.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Type.Results != nil {
				list := f.Type.Results.List
				if last, ok := list[len(list)-1].Type.(*ast.Ident); ok && last.Name == "error" {
					fails[f.Name.Name] = true
				}
			}
		}
	}
	dropped := func(at ast.Node, x ast.Expr) {
		call, ok := x.(*ast.CallExpr)
		if !ok {
			return
		}
		name := ""
		switch f := call.Fun.(type) {
		case *ast.Ident:
			name = f.Name
		case *ast.SelectorExpr:
			name = f.Sel.Name
		}
		if fails[name] {
			t.Errorf("%v: the error of %s is dropped: say it with did or edit (refused.go)", files.Position(at.Pos()), name)
		}
	}
	for _, tree := range trees {
		ast.Inspect(tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ExprStmt:
				dropped(n, n.X)
			case *ast.AssignStmt:
				if last, ok := n.Lhs[len(n.Lhs)-1].(*ast.Ident); ok && last.Name == "_" && len(n.Rhs) == 1 {
					dropped(n, n.Rhs[0])
				}
			}
			return true
		})
	}
}
