package arrival

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"duskhand/plan/kit"
)

// panel is what people write behind a target's name of the parts of a mosaic.
var panel = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)[\s,_-]+(?:panel|tile|pane|part|mosaic)(?:[\s_#\d-].*)?$`)
})

// TargetOf returns the target that a header's OBJECT means: by its name, without the panel of a mosaic behind it,
// or by one of several names that stand side by side.
//
// Error: that of kit.FindTarget for the whole name.
func TargetOf(k kit.Kit, object string) (kit.Target, error) {
	found, whole := k.FindTarget(object)
	if whole == nil {
		return found, nil
	}
	without := panel().ReplaceAllString(object, "")
	parts := strings.FieldsFunc(without, func(r rune) bool { return strings.ContainsRune("/,;|()=", r) })
	for _, name := range slices.Concat([]string{without}, parts) {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		if found, err := k.FindTarget(name); err == nil {
			return found, nil
		}
	}
	return kit.Target{}, whole
}
