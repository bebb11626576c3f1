package kit

import (
	_ "embed"
)

//go:embed example.toml
var exampleTOML string

// ExampleTOML returns the kit file of the built-in example night. Site and sky are real enough to compute
// with; every piece of equipment in it is invented.
func ExampleTOML() []byte { return []byte(exampleTOML) }

// Example returns the kit of the built-in example night.
func Example() Kit {
	k, err := Read(ExampleTOML(), "example.toml")
	if err != nil { // the file is compiled in and tested
		panic(err)
	}
	k.Example = true
	return k
}
