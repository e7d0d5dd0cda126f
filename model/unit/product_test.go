package unit_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const unitPath = "meniscus/model/unit"

// listed is what the go command tells of a package.
type listed struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Export     string
	DepOnly    bool
}

// listModel lists the packages of the model with all they import, and where
// the compiler left their types. It fails where one does not compile.
func listModel(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,GoFiles,Export,DepOnly", "meniscus/model/...")
	var problems bytes.Buffer
	cmd.Stderr = &problems
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, problems.String())
	}
	var list []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
}

// checker finds products of quantities in packages whose imports are known.
type checker struct {
	fset    *token.FileSet
	imports types.Importer
}

func newChecker(list []listed) checker {
	exports := make(map[string]string, len(list))
	for _, p := range list {
		exports[p.ImportPath] = p.Export
	}
	fset := token.NewFileSet()
	return checker{fset, importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) {
		if exports[path] == "" {
			return nil, fmt.Errorf("no types of %s", path)
		}
		return os.Open(exports[path])
	})}
}

// products gives every place in the files of the package path where two
// operands of the same quantity are multiplied or divided. A square of metres
// is no length: such arithmetic goes through the named methods, or through
// plain numbers. Constants only scale and are left out, and so are shares and
// numbers, which have no dimension.
func (c checker) products(path string, files []*ast.File) ([]string, error) {
	info := &types.Info{Types: make(map[ast.Expr]types.TypeAndValue)}
	config := types.Config{Importer: c.imports}
	if _, err := config.Check(path, c.fset, files, info); err != nil {
		return nil, err
	}
	var found []string
	check := func(at token.Pos, x, y ast.Expr) {
		a, b := info.Types[x], info.Types[y]
		if a.Value == nil && b.Value == nil && types.Identical(a.Type, b.Type) && isQuantity(a.Type) {
			found = append(found, fmt.Sprintf("%s: %s with %s", c.fset.Position(at), a.Type, b.Type))
		}
	}
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				if n.Op == token.MUL || n.Op == token.QUO {
					check(n.OpPos, n.X, n.Y)
				}
			case *ast.AssignStmt:
				if n.Tok == token.MUL_ASSIGN || n.Tok == token.QUO_ASSIGN {
					check(n.TokPos, n.Lhs[0], n.Rhs[0])
				}
			}
			return true
		})
	}
	return found, nil
}

// isQuantity tells whether t is a quantity with a dimension, or stands for one
// in generic code.
func isQuantity(t types.Type) bool {
	if p, ok := t.(*types.TypeParam); ok {
		named, ok := p.Constraint().(*types.Named)
		return ok && isUnit(named) && named.Obj().Name() == "Quantity"
	}
	named, ok := types.Unalias(t).(*types.Named)
	if !ok || !isUnit(named) {
		return false
	}
	basic, ok := named.Underlying().(*types.Basic)
	name := named.Obj().Name()
	return ok && basic.Kind() == types.Float64 && name != "Share" && name != "Number"
}

func isUnit(named *types.Named) bool {
	return named.Obj().Pkg() != nil && named.Obj().Pkg().Path() == unitPath
}

func TestNoProductOfLikeQuantities(t *testing.T) {
	list := listModel(t)
	c := newChecker(list)
	checked := 0
	for _, p := range list {
		if p.DepOnly || !strings.HasPrefix(p.ImportPath, "meniscus/model") {
			continue
		}
		var files []*ast.File
		for _, name := range p.GoFiles {
			file, err := parser.ParseFile(c.fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, file)
		}
		found, err := c.products(p.ImportPath, files)
		if err != nil {
			t.Fatalf("%s: %v", p.ImportPath, err)
		}
		for _, place := range found {
			t.Error(place)
		}
		checked++
	}
	if checked == 0 {
		t.Error("no package of the model was checked")
	}
}

func TestProductsAreFound(t *testing.T) {
	const source = `package trap

import "meniscus/model/unit"

type Depth = unit.Length

func bad[Q unit.Quantity](a, b unit.Length, d Depth, m unit.Mass, q Q) {
	_ = a * b // 8
	_ = a / d // 9
	m *= m    // 10
	a /= b    // 11
	_ = q * q // 12
}

func good[F float64](a, b unit.Length, s unit.Share, n int, f F) {
	_ = a * unit.Inch
	_ = 3 * a / 2
	_ = float64(a) * float64(b)
	_ = s * s
	_ = a.By(b)
	_ = n * n
	_ = f * f
	a *= 2
}
`
	c := newChecker(listModel(t))
	file, err := parser.ParseFile(c.fset, "trap.go", source, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	found, err := c.products("trap", []*ast.File{file})
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, place := range found {
		lines = append(lines, strings.Split(place, ":")[1])
	}
	if want := []string{"8", "9", "10", "11", "12"}; !slices.Equal(lines, want) {
		t.Errorf("products found in lines %v, want %v", lines, want)
	}
}
