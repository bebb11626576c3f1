package exposure

// Figure is an answer, or what stands in its way. When OK is false, Lacks names the keys of the kit that would
// give it; with none named, there is no such thing: nothing of it then depends on the kit.
type Figure[T any] struct {
	Value T
	OK    bool
	Lacks []string
}

// need is a key of the kit and its value, which is 0 when the kit is silent.
type need struct {
	key   string
	value float64
}

type needs []need

// lacks returns the keys that have no value.
func (n needs) lacks() []string {
	var keys []string
	for _, each := range n {
		if each.value == 0 {
			keys = append(keys, each.key)
		}
	}
	return keys
}

// figure returns value as an answer if all that it needs is there.
func figure[T any](value T, n needs) Figure[T] {
	if keys := n.lacks(); len(keys) > 0 {
		return Figure[T]{Lacks: keys}
	}
	return Figure[T]{Value: value, OK: true}
}

// none is the answer that there is no such thing.
func none[T any]() Figure[T] { return Figure[T]{} }

// unless returns f, or instead what the others lack.
func unless[T any](f func() Figure[T], lacks ...[]string) Figure[T] {
	var all []string
	for _, each := range lacks {
		all = append(all, each...)
	}
	if len(all) > 0 {
		return Figure[T]{Lacks: all}
	}
	return f()
}
