package gateway

import (
	"crypto/tls"
	"net"
)

// dial opens the socket; secure speaks TLS over it.
func (w *wire) dial(network, addr string, secure bool) (net.Conn, error) {
	tcp, err := w.dialer.DialContext(w.ctx, network, addr)
	if err != nil {
		w.end(lost("dialling failed: %v", err))
		return nil, err
	}
	if !w.attach(tcp, tcp) {
		return nil, net.ErrClosed
	}
	if !secure {
		return w, nil
	}
	conf := w.tls.Clone()
	if conf == nil {
		conf = &tls.Config{}
	}
	if host, _, err := net.SplitHostPort(addr); err == nil && conf.ServerName == "" {
		conf.ServerName = host
	}
	conf.NextProtos = []string{"http/1.1"} // over HTTP/2 there is no upgrade
	conn := tls.Client(tcp, conf)
	if err := conn.HandshakeContext(w.ctx); err != nil {
		w.end(lost("the TLS handshake failed: %v", err))
		return nil, err
	}
	if !w.attach(tcp, conn) {
		return nil, net.ErrClosed
	}
	return w, nil
}

func (w *wire) attach(tcp, raw net.Conn) bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.why != nil {
		_ = tcp.Close()
		return false
	}
	w.tcp, w.raw = tcp, raw
	return true
}
