package gateway

import (
	"encoding/binary"
	"errors"
)

// Opcodes of RFC 6455, section 5.2.
const (
	opContinue = 0x0
	opText     = 0x1
	opBinary   = 0x2
	opClose    = 0x8
	opPing     = 0x9
	opPong     = 0xa
)

// maxMessage bounds a message in bytes; the largest dispatches, of big guilds, have a few million.
const maxMessage = 16 << 20

var (
	errTooBig  = errors.New("a message is too big")
	errFraming = errors.New("the frames of the websocket are garbled")
)

// frame is one websocket frame; its payload points into the bytes it was read from.
type frame struct {
	final   bool
	opcode  byte
	payload []byte
}

func (f frame) control() bool { return f.opcode >= opClose }

// parseFrame reads the frame at the start of b and tells how many bytes it takes, 0 when b
// does not hold all of it yet. A masked frame, the client's, is unmasked in place.
func parseFrame(b []byte, masked bool) (frame, int, error) {
	if len(b) < 2 {
		return frame{}, 0, nil
	}
	f := frame{final: b[0]&0x80 != 0, opcode: b[0] & 0x0f}
	size, head := uint64(b[1]&0x7f), 2
	switch {
	case b[0]&0x70 != 0, (b[1]&0x80 != 0) != masked:
		return frame{}, 0, errFraming
	case f.control():
		if !f.final || size > 125 || f.opcode > opPong {
			return frame{}, 0, errFraming
		}
	case f.opcode > opBinary:
		return frame{}, 0, errFraming
	case size == 126:
		head = 4
	case size == 127:
		head = 10
	}
	if len(b) < head {
		return frame{}, 0, nil
	}
	switch head {
	case 4:
		size = uint64(binary.BigEndian.Uint16(b[2:]))
	case 10:
		size = binary.BigEndian.Uint64(b[2:])
	}
	if size > maxMessage {
		return frame{}, 0, errTooBig
	}
	if masked {
		head += 4
	}
	end := head + int(size)
	if len(b) < end {
		return frame{}, 0, nil
	}
	f.payload = b[head:end:end]
	if masked {
		mask(f.payload, b[head-4:head])
	}
	return f, end, nil
}

// appendFrame writes one whole frame; with a key of four bytes it is masked, as a client's must be.
func appendFrame(dst []byte, opcode byte, payload, key []byte) []byte {
	var maskBit byte
	if key != nil {
		maskBit = 0x80
	}
	dst = append(dst, 0x80|opcode)
	switch n := len(payload); {
	case n < 126:
		dst = append(dst, maskBit|byte(n))
	case n < 1<<16:
		dst = binary.BigEndian.AppendUint16(append(dst, maskBit|126), uint16(n))
	default:
		dst = binary.BigEndian.AppendUint64(append(dst, maskBit|127), uint64(n))
	}
	dst = append(dst, key...)
	start := len(dst)
	dst = append(dst, payload...)
	if key != nil {
		mask(dst[start:], key)
	}
	return dst
}

func mask(b, key []byte) {
	for i := range b {
		b[i] ^= key[i%4]
	}
}

// assembler joins the fragments of a message.
type assembler struct {
	opcode byte // 0 between messages
	bytes  []byte
}

// add takes a data frame and gives the message that it completes, if it does.
func (a *assembler) add(f frame) (whole frame, done bool, err error) {
	switch {
	case (f.opcode == opContinue) != (a.opcode != 0):
		return frame{}, false, errFraming
	case f.opcode != opContinue && f.final:
		return f, true, nil
	case f.opcode != opContinue:
		a.opcode = f.opcode
	}
	if len(a.bytes)+len(f.payload) > maxMessage {
		return frame{}, false, errTooBig
	}
	a.bytes = append(a.bytes, f.payload...)
	if !f.final {
		return frame{}, false, nil
	}
	whole = frame{final: true, opcode: a.opcode, payload: a.bytes}
	*a = assembler{}
	return whole, true, nil
}
