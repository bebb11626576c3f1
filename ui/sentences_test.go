package ui_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What decides reads kinds and numbers: a sentence is written for a person, and its words change.

// sentences are the fields and methods that hold what a person reads.
var sentences = []string{"Words", "Brief", "Text", "Sentence", "Notice", "ToDo", "Label", "Labels", "Problem", "Why"}

// readers are the functions of package strings by which a branch could read one.
var readers = []string{"Contains", "HasPrefix", "HasSuffix", "CutPrefix", "CutSuffix", "Index", "LastIndex", "EqualFold", "Count"}

var severalWords = regexp.MustCompile(`[a-z,:;] [a-z(]`)

// isCompared tells whether an expression that is compared is a sentence: an advice's Why is a kind.
func isCompared(e ast.Expr) bool {
	kind, selects := e.(*ast.SelectorExpr)
	return isSentence(e) && !(selects && kind.Sel.Name == "Why")
}

// isSentence tells whether an expression is what a person reads: several words written out, or a field or method that
// holds such.
func isSentence(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return isSentence(e.X)
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return e.Kind == token.STRING && err == nil && severalWords.MatchString(text)
	case *ast.BinaryExpr:
		return e.Op == token.ADD && (isSentence(e.X) || isSentence(e.Y))
	case *ast.IndexExpr:
		return isSentence(e.X)
	case *ast.CallExpr:
		return isSentence(e.Fun)
	case *ast.SelectorExpr:
		return slices.Contains(sentences, e.Sel.Name)
	}
	return false
}

func isEmpty(e ast.Expr) bool {
	lit, ok := e.(*ast.BasicLit)
	return ok && (lit.Value == `""` || lit.Value == "``")
}

// readings returns where a file's branches read a sentence.
func readings(files *token.FileSet, file *ast.File) (found []string) {
	at := func(n ast.Node, how string) {
		found = append(found, fmt.Sprintf("%s: %s", files.Position(n.Pos()), how))
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			of, ok := n.Fun.(*ast.SelectorExpr)
			if !ok || !slices.Contains(readers, of.Sel.Name) {
				break
			}
			if in, ok := of.X.(*ast.Ident); ok && in.Name == "strings" && slices.ContainsFunc(n.Args, isSentence) {
				at(n, "strings."+of.Sel.Name)
			}
		case *ast.BinaryExpr:
			if (n.Op == token.EQL || n.Op == token.NEQ) && (isCompared(n.X) && !isEmpty(n.Y) || isCompared(n.Y) && !isEmpty(n.X)) {
				at(n, n.Op.String())
			}
		case *ast.SwitchStmt:
			if n.Tag != nil && isCompared(n.Tag) {
				at(n, "switch")
			}
		case *ast.CaseClause:
			if slices.ContainsFunc(n.List, isSentence) {
				at(n, "case")
			}
		}
		return true
	})
	return found
}

func TestNoBranchReadsASentence(t *testing.T) {
	for path, text := range sources(t, false) {
		if path == "checklist/subs/watch/names.go" { // what systems call their folders
			continue
		}
		files := token.NewFileSet()
		file, err := parser.ParseFile(files, path, text, parser.SkipObjectResolution)
		require.NoError(t, err)
		assert.Empty(t, readings(files, file))
	}
}

// The test must see what it forbids.
func TestBranchesThatReadASentenceAreSeen(t *testing.T) {
	for _, c := range []struct {
		name, code string
		reads      bool
	}{
		{"a word looked for in a notice", `if strings.Contains(m.Notice, "sub") { f() }`, true},
		{"an alert's words in a notice", `if strings.Contains(said, on[0].Words) { f() }`, true},
		{"the beginning of a text", `return strings.HasPrefix(b.Why, turnedBy)`, true},
		{"a sentence compared", `if words[0] == "nothing is left" { f() }`, true},
		{"what is to be done compared", `if v.ToDo()[0] != before { f() }`, true},
		{"a switch on words", `switch a.Brief { case x: f() }`, true},
		{"a sentence as a case", `switch said { case "the window closes": f() }`, true},
		{"whether there are words at all", `if a.Words != "" { f() }`, false},
		{"a kind", `if a.Do == advice.Wait { f() }`, false},
		{"a word of a file", `if strings.HasPrefix(name, "NAXIS") { f() }`, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, "planted.go", "package p\nfunc g() bool {\n"+c.code+"\nreturn false }", 0)
			require.NoError(t, err)
			assert.Equal(t, c.reads, len(readings(files, file)) > 0)
		})
	}
}
