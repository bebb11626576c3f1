package journal

import (
	"crypto/sha256"
	"encoding/binary"
)

// checksum returns SHA-256 over all columns of e but itself. Each text goes in after its length, so
// that no two rows give the same bytes.
func checksum(e Event) [sha256.Size]byte {
	var room [512]byte
	b := binary.BigEndian.AppendUint64(room[:0], uint64(e.Ordinal))
	b = binary.BigEndian.AppendUint64(b, uint64(e.At.UnixNano()))
	b = binary.BigEndian.AppendUint64(b, uint64(e.Written.UnixNano()))
	for _, text := range []string{e.Night, e.Writer, e.Kind} {
		b = binary.BigEndian.AppendUint64(b, uint64(len(text)))
		b = append(b, text...)
	}
	b = binary.BigEndian.AppendUint64(b, uint64(len(e.Body)))
	b = append(b, e.Body...)
	return sha256.Sum256(b)
}
