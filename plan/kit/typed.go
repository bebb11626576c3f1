package kit

import (
	"fmt"
	"strconv"
	"strings"

	"duskhand/sky"
)

// Typed returns what a kit file answers to the questions of a new kit, by their keys, as a person would type it. What
// the file does not give is left out. The first target alone is asked for.
//
// Error: Faults without a file, if data is no TOML or has keys that are written twice.
func Typed(data []byte) (map[string]string, error) {
	document, err := ReadDocument(data, "")
	if err != nil {
		return nil, err
	}
	typed := map[string]string{}
	for _, q := range AskedOfANewKit() {
		var text string
		switch q.Key {
		case PlaceKey:
			text = typedPlace(document.Values)
		case FiltersKey:
			text = typedFilters(filtersIn(document.Values))
		default:
			text = typedValue(valueAt(document.Values, q.Key))
		}
		if text != "" {
			typed[q.Key] = text
		}
	}
	return typed, nil
}

// valueAt returns what a document has under a key's path, of a list's first item; nil for nothing.
func valueAt(values any, key string) any {
	for _, part := range strings.Split(key, ".") {
		items := asItems(values)
		if len(items) == 0 || items[0] == nil {
			return nil
		}
		values = items[0][part]
	}
	return values
}

// typedValue is a value of the file without its quotes, "" for none.
func typedValue(raw any) string {
	switch x := raw.(type) {
	case string:
		return x
	case int64, float64:
		return literal(x)
	}
	return ""
}

func typedPlace(values map[string]any) string {
	latitude, longitude := typedValue(valueAt(values, "site.latitude")), typedValue(valueAt(values, "site.longitude"))
	if latitude == "" || longitude == "" {
		return ""
	}
	place := latitude + " " + longitude
	if _, err := sky.ParseSite(place); err != nil { // one has a letter for its side, and the other none
		place = typedAngle(values, "site.latitude") + " " + typedAngle(values, "site.longitude")
	}
	if height := typedValue(valueAt(values, "site.elevation_m")); height != "" {
		place += ", " + height + " m"
	}
	return place
}

// typedAngle is an angle of the file in degrees; one that can't be read stays as it is.
func typedAngle(values map[string]any, key string) string {
	f, _ := fieldOf(key)
	raw := valueAt(values, key)
	v, problem := f.read(raw)
	if problem != "" {
		return typedValue(raw)
	}
	return typedDegrees(v.degrees())
}

// filtersIn returns the answers to each filter's keys, by their last words, as readFilterList does.
func filtersIn(values map[string]any) (filters []map[string]string) {
	for _, each := range asItems(valueAt(values, "subs.filter")) {
		filters = append(filters, map[string]string{"name": typedValue(each["name"]),
			"exposure_s": typedValue(each["exposure_s"]), "count": typedValue(each["count"])})
	}
	return filters
}

func typedFilters(filters []map[string]string) string {
	var parts []string
	for _, f := range filters {
		parts = append(parts, fmt.Sprintf("%s %s × %s", f["name"], f["exposure_s"], f["count"]))
	}
	return strings.Join(parts, ", ")
}

// Besides returns what a kit file holds beside the answers to the questions of a new kit: the names of its tables,
// those of lists with how many they have.
func Besides(data []byte) (names []string, err error) {
	document, err := ReadDocument(data, "")
	if err != nil {
		return nil, err
	}
	asked := map[string]bool{"site.latitude": true, "site.longitude": true, "site.elevation_m": true,
		"subs.filter.name": true, "subs.filter.exposure_s": true, "subs.filter.count": true}
	for _, q := range AskedOfANewKit() {
		asked[q.Key] = true
	}
	for _, t := range tables() {
		if n := besides(document.Values, t, asked); n > 0 {
			name := t.name
			if t.list && t.atLeast == 0 || t.name == "target" {
				name += " (" + strconv.Itoa(n) + ")"
			}
			names = append(names, name)
		}
	}
	return names, nil
}

// besides counts the tables of a name that hold more than what is asked; of targets those after the first.
func besides(values map[string]any, t table, asked map[string]bool) (n int) {
	raw := valueAt(values, t.name)
	if t.name == "target" {
		return max(0, len(asItems(raw))-1)
	}
	for _, each := range asItems(raw) {
		for key := range each {
			_, isTable := tableOf(t.name + "." + key)
			if !asked[t.name+"."+key] && !isTable {
				n++
				break
			}
		}
	}
	return n
}

func tableOf(name string) (table, bool) {
	for _, t := range tables() {
		if t.name == name {
			return t, true
		}
	}
	return table{}, false
}
