package model

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// comments holds what is said in the source about types ("Mold") and fields
// ("Mold.Depth").
type comments map[string]string

func (c comments) of(name string) string { return c[name] }

// declarations calls f for each declaration in the packages in dirs, without
// their tests.
func declarations(t *testing.T, dirs []string, f func(*ast.GenDecl)) {
	t.Helper()
	for _, dir := range dirs {
		files, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			if !strings.HasSuffix(file.Name(), ".go") || strings.HasSuffix(file.Name(), "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(dir, file.Name()), nil, parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			for _, decl := range parsed.Decls {
				if g, ok := decl.(*ast.GenDecl); ok {
					f(g)
				}
			}
		}
	}
}

// readComments reads the comments of types and fields.
func readComments(t *testing.T, dirs ...string) comments {
	c := comments{}
	declarations(t, dirs, func(g *ast.GenDecl) {
		for _, spec := range g.Specs {
			typ, ok := spec.(*ast.TypeSpec)
			if !ok {
				continue
			}
			doc := typ.Doc
			if doc == nil {
				doc = g.Doc
			}
			c[typ.Name.Name] = oneLine(doc)
			fields, ok := typ.Type.(*ast.StructType)
			if !ok {
				continue
			}
			for _, f := range fields.Fields.List {
				for _, name := range f.Names {
					c[typ.Name.Name+"."+name.Name] = oneLine(f.Comment)
				}
			}
		}
	})
	return c
}

// oneLine joins the lines of a comment.
func oneLine(doc *ast.CommentGroup) string {
	if doc == nil {
		return ""
	}
	return strings.Join(strings.Fields(doc.Text()), " ")
}

// readConstants reads the text constants of each named type.
func readConstants(t *testing.T, dirs ...string) map[string][]string {
	all := map[string][]string{}
	declarations(t, dirs, func(g *ast.GenDecl) {
		if g.Tok != token.CONST {
			return
		}
		for _, spec := range g.Specs {
			value := spec.(*ast.ValueSpec)
			typ, ok := value.Type.(*ast.Ident)
			if !ok || len(value.Values) != 1 {
				continue
			}
			if literal, ok := value.Values[0].(*ast.BasicLit); ok && literal.Kind == token.STRING {
				text, err := strconv.Unquote(literal.Value)
				if err != nil {
					t.Fatal(err)
				}
				all[typ.Name] = append(all[typ.Name], text)
			}
		}
	})
	return all
}
