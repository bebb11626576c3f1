package ui_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A verb with the unit of a length of time or of an angle behind it, a layout of the clock on the wall, and such a
// unit by itself, for a sum of texts.
var (
	printsUnit  = regexp.MustCompile(`%[-+# 0]*[\d*]*(\.[\d*]+)?[dfgsv]( ?[°′″]| (h|min|s)\b)`)
	clockIsRead = regexp.MustCompile(`15:04`)
	unitAlone   = regexp.MustCompile(`^( ?[°′″].{0,2}| (h|min|s)\b)`)
)

// notPrinted are files whose layouts are read, or are for programs and not for people.
func notPrinted() []string {
	return []string{
		"checklist/subs/fits/start.go", "checklist/subs/simulate/write.go", // FITS dates
		"plan/ask/night.go",   // JSON
		"ui/command/at.go",    // what is typed
		"ui/command/stars.go", // what is typed
		"ui/command/room.go",  // the line that scripts read
	}
}

// Lengths of time, instants and angles are printed by one package. sky itself has the types, and what they are called
// in its errors.
func TestOnePrinter(t *testing.T) {
	for path, text := range sources(t, false) {
		if strings.HasPrefix(path, "sky/") || slices.Contains(notPrinted(), path) {
			continue
		}
		assert.Empty(t, ownPrinting(t, path, text), "%s prints by itself what duskhand/sky/words prints", path)
	}
}

// ownPrinting returns the texts of a file that print a length of time, an instant or an angle.
func ownPrinting(t *testing.T, path, text string) (texts []string) {
	parsed, err := parser.ParseFile(token.NewFileSet(), path, text, 0)
	require.NoError(t, err)
	literal := func(e ast.Expr) string {
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			said, err := strconv.Unquote(lit.Value)
			require.NoError(t, err)
			return said
		}
		return ""
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.Field: // tags of JSON
			n.Tag = nil
		case *ast.BasicLit:
			if said := literal(n); printsUnit.MatchString(said) || clockIsRead.MatchString(said) {
				texts = append(texts, said)
			}
		case *ast.BinaryExpr:
			if said := literal(n.Y); n.Op == token.ADD && unitAlone.MatchString(said) {
				texts = append(texts, said)
			}
		}
		return true
	})
	return texts
}

// The test must see what it forbids.
func TestOnePrinterSeesWhatPrints(t *testing.T) {
	for _, wrong := range []string{`fmt.Sprintf("%d h %02d min", h, m)`, `t.Format("15:04")`, `fmt.Sprintf("tilt %.1f°", a)`,
		`number + "°"`, `fmt.Sprintf("%g s", d)`, `fmt.Errorf("%.2f″ a pixel", x)`} {
		assert.NotEmpty(t, ownPrinting(t, "x.go", "package x\nvar _ = "+wrong), wrong)
	}
	for _, right := range []string{`fmt.Sprintf("%d subs", n)`, `"give 0° to 90°"`, `fmt.Sprintf("%s of %s dark", a, b)`, `name + "s"`} {
		assert.Empty(t, ownPrinting(t, "x.go", "package x\nvar _ = "+right), right)
	}
}
