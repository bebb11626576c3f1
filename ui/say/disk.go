package say

import (
	"fmt"

	"duskhand/plan/supplies"
)

// room says how the data and what is free on the disk go together.
func room(r supplies.Room) string {
	head := fmt.Sprintf("The %d subs planned take %s, %s each", r.Subs, bytesText(r.Bytes), bytesText(r.BytesEach))
	if r.Subs == 1 {
		head = fmt.Sprintf("The one sub planned takes %s", bytesText(r.Bytes))
	}
	if r.Fits() {
		return fmt.Sprintf("%s; of %s free %s stay free.", head, bytesText(r.FreeBytes), bytesText(r.LeftBytes()))
	}
	return fmt.Sprintf("%s, and only %s are free: the disk is full after %d of them; make room for %s more.", head,
		bytesText(r.FreeBytes), r.SubsThatFit(), bytesText(-r.LeftBytes()))
}

// bytesText prints an amount of data in decimal units, as disks are sold.
func bytesText(n int64) string {
	const mega, giga, tera = 1e6, 1e9, 1e12
	switch x := float64(n); {
	case x < giga:
		return fmt.Sprintf("%.1f MB", x/mega)
	case x < tera:
		return fmt.Sprintf("%.1f GB", x/giga)
	default:
		return fmt.Sprintf("%.2f TB", x/tera)
	}
}
