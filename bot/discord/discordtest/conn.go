package discordtest

import (
	"time"

	"github.com/gorilla/websocket"
)

// conn is one websocket. The server's lock guards the fields below it.
type conn struct {
	s    *Server
	ws   *websocket.Conn
	wake chan struct{} // the queue has grown, or the connection ended

	queue     []frame
	session   *session
	version   string
	zlib      bool
	silent    bool
	ended     bool
	closing   bool      // a close frame is on its way
	beat      time.Time // last heartbeat, or the beginning
	sends     int       // frames since window
	window    time.Time
	resumeURL bool
}

// frame is what waits to be written; closeCode closes instead.
type frame struct {
	data      []byte
	zlib      bool
	closeCode int
	writing   func() // called with the lock held when the frame goes out
}

// writeLoop writes what is queued until the connection ends.
func (c *conn) writeLoop() {
	for range c.wake {
		for {
			f, ok, ended := c.next()
			if ended {
				return
			}
			if !ok {
				break
			}
			if err := c.write(f); err != nil {
				c.drop()
				return
			}
		}
	}
}

// next takes the first frame off the queue.
func (c *conn) next() (f frame, ok, ended bool) {
	c.s.mu.Lock()
	defer c.s.mu.Unlock()
	if c.ended {
		return f, false, true
	}
	if len(c.queue) == 0 || c.silent {
		return f, false, false
	}
	f, c.queue = c.queue[0], c.queue[1:]
	if f.writing != nil {
		f.writing()
	}
	return f, true, false
}

func (c *conn) write(f frame) error {
	deadline := time.Now().Add(10 * time.Second)
	if f.closeCode != 0 {
		c.s.traffic.line("-> close %d", f.closeCode)
		err := c.ws.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(f.closeCode, ""), deadline)
		_ = c.ws.SetReadDeadline(time.Now().Add(time.Second)) // the client's own close, else the end
		return err
	}
	_ = c.ws.SetWriteDeadline(deadline) // writing reports a broken connection
	c.s.traffic.frame("->", f.data)
	if !f.zlib {
		return c.ws.WriteMessage(websocket.TextMessage, f.data)
	}
	return c.ws.WriteMessage(websocket.BinaryMessage, deflate(f.data))
}

// drop closes the TCP connection without a close frame.
func (c *conn) drop() {
	c.s.mu.Lock()
	c.ended = true
	c.s.mu.Unlock()
	_ = c.ws.Close() // nothing more is to be said on it
	c.poke()
}

func (c *conn) poke() {
	select {
	case c.wake <- struct{}{}:
	default:
	}
}

// send queues a payload other than a dispatch. The caller holds the lock.
func (c *conn) send(op int, data any) {
	c.enqueue(frame{data: encode(payload{Op: op, Data: encode(data)}), zlib: c.zlib})
}

// close queues a close frame and takes a session away that the code ends.
func (c *conn) close(code int) {
	switch code {
	case closeBadSequence, closeTimedOut, closeBadToken, closeBadShard, closeTooManyGuilds, closeBadVersion, closeBadIntents, closeNoSuchIntents:
		if c.session != nil {
			delete(c.s.gateway.sessions, c.session.id)
		}
	}
	c.enqueue(frame{closeCode: code})
	c.closing = true
	if c.session != nil && c.session.conn == c {
		c.session.conn = nil
	}
}

// enqueue appends to the queue; what a silent or closing connection gets is lost.
func (c *conn) enqueue(f frame) {
	if c.silent || c.closing || c.ended {
		return
	}
	c.queue = append(c.queue, f)
	c.poke()
}
